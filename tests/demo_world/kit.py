"""Procedural parts for workshop photographs: shapes, worn materials, benches, light and a hand-held camera.

One scene unit is ten centimetres.
"""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

import bmesh
import bpy
from mathutils import Euler, Matrix, Vector

Vec = tuple[float, float, float]
Flat = Sequence[tuple[float, float]]
FACES = Path("/tmp/faces")
DRAFT = False
STACK: list[Matrix] = [Matrix.Identity(4)]


def reset() -> None:
    """An empty file with Cycles set up for two threads."""
    bpy.ops.wm.read_factory_settings(use_empty=True)
    STACK[:] = [Matrix.Identity(4)]
    scene = bpy.context.scene
    scene.render.engine = "CYCLES"
    scene.cycles.device = "CPU"
    scene.render.threads_mode, scene.render.threads = "FIXED", 2
    scene.cycles.use_denoising, scene.cycles.denoiser = True, "OPENIMAGEDENOISE"
    scene.cycles.denoising_prefilter = "FAST"
    scene.cycles.max_bounces, scene.cycles.diffuse_bounces, scene.cycles.glossy_bounces = 4, 2, 2
    scene.cycles.transmission_bounces, scene.cycles.caustics_reflective = 4, False
    scene.cycles.use_adaptive_sampling, scene.cycles.adaptive_threshold = True, 0.05
    scene.cycles.adaptive_min_samples = 8
    scene.cycles.sample_clamp_indirect = 4.0
    scene.view_settings.view_transform = "AgX"
    scene.view_settings.look = "AgX - Medium High Contrast"


@contextmanager
def place(at: Vec = (0, 0, 0), rot: Vec = (0, 0, 0), scale: float = 1.0) -> Iterator[None]:
    """Everything made inside stands in a frame moved to `at`, turned by `rot` (degrees) and scaled."""
    turn = Euler([math.radians(a) for a in rot]).to_matrix().to_4x4()
    STACK.append(STACK[-1] @ Matrix.Translation(at) @ turn @ Matrix.Scale(scale, 4))
    try:
        yield
    finally:
        STACK.pop()


# ---------------------------------------------------------------- materials


class Nodes:
    """A thin wrapper that makes node graphs short to write."""

    def __init__(self, name: str) -> None:
        self.material = bpy.data.materials.new(name)
        self.material.use_nodes = True
        self.tree = self.material.node_tree
        self.tree.nodes.clear()

    def link(self, value: object, socket: bpy.types.NodeSocket) -> None:
        """Connect a socket, or set a plain value."""
        if isinstance(value, bpy.types.NodeSocket):
            self.tree.links.new(value, socket)
        else:
            socket.default_value = value

    def add(self, kind: str, out: int | str = 0, **inputs: object) -> bpy.types.NodeSocket:
        """Add a node; `s_name` sets input "Name", `i3` input number 3, the rest are node properties."""
        node = self.tree.nodes.new(f"ShaderNode{kind}")
        for key, value in inputs.items():
            if not key.startswith("s_") and not (key[0] == "i" and key[1:].isdigit()):
                setattr(node, key, value)
        for key, value in inputs.items():
            if key.startswith("s_"):
                self.link(value, node.inputs[key[2:].replace("_", " ").title().replace("Ior", "IOR")])
            elif key[0] == "i" and key[1:].isdigit():
                self.link(value, node.inputs[int(key[1:])])
        return node.outputs[out]

    def math(self, operation: str, a: object, b: object = 0.0) -> bpy.types.NodeSocket:
        """Arithmetic, clamped to 0..1 only where the caller asks."""
        return self.add("Math", operation=operation, i0=a, i1=b)

    def step(self, value: object, low: float, high: float, to: float = 1.0) -> bpy.types.NodeSocket:
        """A ramp from 0 at `low` to `to` at `high`."""
        return self.add("MapRange", clamp=True, i0=value, i1=low, i2=high, i3=0.0, i4=to)

    def noise(
        self, vector: object, scale: float, detail: float = 4.0, stretch: Vec = (1, 1, 1), shift: Vec = (0, 0, 0)
    ) -> bpy.types.NodeSocket:
        """Noise between 0 and 1, its space stretched."""
        mapped = self.add("Mapping", s_vector=vector, s_scale=stretch, s_location=shift)
        return self.add("TexNoise", s_vector=mapped, s_scale=scale, s_detail=detail)

    def output(self, shader: bpy.types.NodeSocket, plain: Vec, metallic: float = 0.0, rough: float = 0.6) -> None:
        """Finish: the camera sees all the detail, reflected light meets a plain copy that costs nothing."""
        cheap = self.add("BsdfPrincipled", s_base_color=rgba(plain), s_metallic=metallic, s_roughness=rough)
        seen = self.add("LightPath", "Is Camera Ray")
        both = self.add("MixShader", i0=seen, i1=cheap, i2=shader)
        self.tree.links.new(both, self.tree.nodes.new("ShaderNodeOutputMaterial").inputs[0])

    def mix(self, factor: object, a: object, b: object) -> bpy.types.NodeSocket:
        """Blend two colours."""
        return self.add("Mix", 2, data_type="RGBA", i0=factor, i6=rgba(a), i7=rgba(b))

    def blend(self, factor: object, a: object, b: object) -> bpy.types.NodeSocket:
        """Blend two numbers."""
        return self.add("Mix", 0, data_type="FLOAT", i0=factor, i2=a, i3=b)


def rgba(colour: object) -> object:
    """Give a three-part colour its alpha."""
    return (*colour, 1.0) if isinstance(colour, tuple) and len(colour) == 3 else colour


def load(name: str) -> bpy.types.Image:
    """A face drawn beforehand."""
    return bpy.data.images.load(str(FACES / f"{name}.png"), check_existing=True)


def surface(
    colour: Vec,
    metallic: float = 0.0,
    rough: float = 0.4,
    grime: float = 0.5,
    dust: float = 0.25,
    scratch: float = 0.5,
    bump: float = 0.15,
    grain: float = 40.0,
    scale: float = 1.0,
    face: str = "",
    relief: float = 0.0,
    burn: tuple[float, float, float, float] | None = None,
    glow: float = 0.0,
    streak: float = 0.0,
    seed: float = 0.0,
    coat: float = 0.0,
) -> bpy.types.Material:
    """A worn workshop surface.

    `grime` darkens crevices and patches, `dust` greys what faces up, `scratch` draws fine lines, `burn` chars a place
    (object coordinates and radius), `streak` scores the surface along z, `face` prints an image on it.
    """
    g = Nodes("surface")
    coord = g.tree.nodes.new("ShaderNodeTexCoord")
    local = coord.outputs["Object"]
    base: object = rgba(colour)
    height: object = g.noise(local, grain * scale, 1)
    height = g.math("MULTIPLY", height, 0.5)
    metal: object = metallic
    if face:
        image = g.tree.nodes.new("ShaderNodeTexImage")
        image.image, image.extension = load(face), "EXTEND"
        g.link(coord.outputs["Generated"], image.inputs[0])
        base = image.outputs[0]
        if relief:
            deep = g.tree.nodes.new("ShaderNodeTexImage")
            deep.image, deep.extension = load(f"{face}-h"), "EXTEND"
            deep.image.colorspace_settings.name = "Non-Color"
            g.link(coord.outputs["Generated"], deep.inputs[0])
            height = g.math("ADD", g.math("MULTIPLY", height, 0.1), g.math("MULTIPLY", deep.outputs[0], relief))
    patches = g.noise(local, 1.3 * scale, 5, shift=(seed, seed * 1.7, 3))
    base = g.mix(g.step(patches, 0.35, 0.7, 0.22), base, g.mix(0.55, base, (0.02, 0.018, 0.015)))
    rough_out: object = g.math("ADD", rough - 0.12, g.math("MULTIPLY", patches, 0.24))
    if scratch:
        tilt = g.add("VectorRotate", rotation_type="EULER_XYZ", i0=local, i4=(0.2, 0.3, 0.45 + seed))
        lean = g.add("VectorRotate", rotation_type="EULER_XYZ", i0=local, i4=(0.3, -0.1, 1.15 - seed))
        one = g.step(g.noise(tilt, 5 * scale, 1, (0.35, 26, 26), (seed, 1, 2)), 0.685, 0.71)
        two = g.step(g.noise(lean, 4 * scale, 1, (22, 0.5, 20), (4, seed, 2)), 0.70, 0.72)
        lines = g.math("MULTIPLY", g.math("MAXIMUM", one, two), g.step(patches, 0.62, 0.4, scratch))
        pale = (0.62, 0.6, 0.57) if metallic < 0.5 else (0.8, 0.79, 0.77)
        base = g.mix(g.math("MULTIPLY", lines, 0.6), base, pale)
    if streak:
        height = g.math("MULTIPLY", height, 0.12)
        fine = g.noise(local, 9 * scale, 3, (1, 1, 0.03), (seed, 0, 0))
        coarse = g.noise(local, 3.2 * scale, 2, (1, 1, 0.05), (seed, 2, 0))
        where = g.step(coarse, 0.36, 0.46)
        side = g.math("ADD", g.math("ABSOLUTE", g.add("SeparateXYZ", 0, i0=local)), g.math("MULTIPLY", coarse, 0.5))
        where = g.math("MULTIPLY", where, g.step(side, 1.05, 0.8))
        score = g.math("MULTIPLY", g.step(fine, 0.50, 0.64), where)
        base = g.mix(g.math("MULTIPLY", where, streak * 0.88), base, (0.03, 0.025, 0.021))
        base = g.mix(g.math("MULTIPLY", score, streak), base, (0.82, 0.79, 0.74))
        rough_out = g.blend(where, rough_out, 0.58)
        height = g.math("SUBTRACT", height, g.math("MULTIPLY", g.math("MULTIPLY", fine, where), streak * 3.5))
    if grime:
        cavity = g.add("AmbientOcclusion", 1, samples=1, s_distance=0.35 / scale)
        dirty = g.math("MULTIPLY", g.step(cavity, 0.95, 0.35), grime)
        spots = g.step(patches, 0.55, 0.72, grime * 0.65)
        dirty = g.math("MAXIMUM", dirty, spots)
        base = g.mix(dirty, base, (0.028, 0.022, 0.016))
        metal = g.blend(dirty, metal, 0.0) if metallic else metal
        rough_out = g.blend(dirty, rough_out, 0.55)
    if dust:
        up = g.add("SeparateXYZ", 2, i0=g.add("NewGeometry", 1))
        layer = g.math("MULTIPLY", g.step(up, 0.4, 1.0), g.step(patches, 0.7, 0.3, dust))
        base = g.mix(layer, base, (0.36, 0.32, 0.26))
        metal = g.blend(layer, metal, 0.0) if metallic else metal
        rough_out = g.blend(layer, rough_out, 0.85)
    if burn:
        away = g.add("VectorMath", 1, operation="DISTANCE", i0=local, i1=burn[:3])
        ragged = g.math(
            "ADD",
            g.math("DIVIDE", away, burn[3]),
            g.math("MULTIPLY", g.math("SUBTRACT", g.noise(local, 2.6 * scale, 6), 0.5), 1.3),
        )
        base = g.mix(g.step(ragged, 1.25, 0.75, 0.8), base, (0.10, 0.055, 0.028))
        base = g.mix(g.step(ragged, 0.9, 0.5), base, (0.008, 0.007, 0.007))
        metal = g.blend(g.step(ragged, 1.1, 0.6), metal, 0.0)
        rough_out = g.blend(g.step(ragged, 1.0, 0.4), rough_out, 0.75)
        rubble = g.math("MULTIPLY", g.noise(local, 14 * scale, 6), g.step(ragged, 0.95, 0.5, 4.0))
        height = g.math("ADD", height, rubble)
    normal = g.add(
        "Bump", s_strength=min(1.0, bump + (0.5 if relief or streak or burn else 0)), s_distance=0.02, s_height=height
    )
    shader = g.add(
        "BsdfPrincipled",
        s_base_color=base,
        s_metallic=metal,
        s_roughness=rough_out,
        s_normal=normal,
        s_coat_weight=coat,
        s_emission_strength=glow,
    )
    if glow:
        g.link(base, shader.node.inputs["Emission Color"])
    g.output(shader, colour if not face else (0.4, 0.4, 0.4), metallic, rough)
    return g.material


def steel(**more: float) -> bpy.types.Material:
    """Bare steel that has lain in a workshop."""
    return surface((0.52, 0.52, 0.53), **{"metallic": 1.0, "rough": 0.33, "grime": 0.4, "dust": 0.08, **more})


def alloy(**more: object) -> bpy.types.Material:
    """Die-cast aluminium."""
    return surface((0.66, 0.66, 0.67), **{"metallic": 1.0, "rough": 0.48, "bump": 0.35, "dust": 0.1, **more})


def brass(**more: object) -> bpy.types.Material:
    """Brass dulled by handling."""
    return surface((0.78, 0.53, 0.22), **{"metallic": 1.0, "rough": 0.34, "grime": 0.35, "dust": 0.05, **more})


def plastic(colour: Vec, **more: object) -> bpy.types.Material:
    """Moulded, lightly grained plastic."""
    return surface(colour, **{"rough": 0.42, "grain": 90.0, "bump": 0.2, **more})


def rubber(**more: float) -> bpy.types.Material:
    """Black rubber, greyed by dust."""
    return surface((0.018, 0.018, 0.019), **{"rough": 0.7, "dust": 0.35, "scratch": 0.0, "grain": 60.0, **more})


def paint(colour: Vec, **more: object) -> bpy.types.Material:
    """Gloss paint on sheet metal."""
    return surface(colour, **{"rough": 0.32, "coat": 0.3, "bump": 0.06, **more})


def glass() -> bpy.types.Material:
    """A clear cover that costs little to render."""
    g = Nodes("glass")
    ray = g.add("Fresnel", s_ior=1.3)
    shine = g.add("BsdfGlossy", s_roughness=0.03)
    mixed = g.add("MixShader", i0=ray, i1=g.add("BsdfTransparent"), i2=shine)
    g.tree.links.new(mixed, g.tree.nodes.new("ShaderNodeOutputMaterial").inputs[0])
    return g.material


def water() -> bpy.types.Material:
    """Clear water."""
    g = Nodes("water")
    shader = g.add(
        "BsdfPrincipled", s_base_color=(0.9, 0.95, 0.95, 1), s_roughness=0.02, s_ior=1.33, s_transmission_weight=1.0
    )
    g.tree.links.new(shader, g.tree.nodes.new("ShaderNodeOutputMaterial").inputs[0])
    return g.material


TEAL, GRAPHITE = (0.012, 0.15, 0.15), (0.035, 0.037, 0.04)
PLUM, IVORY = (0.16, 0.018, 0.06), (0.62, 0.57, 0.44)
BLUE, PALE = (0.03, 0.11, 0.34), (0.62, 0.65, 0.66)


# ---------------------------------------------------------------- shapes


def finish(
    mesh: bpy.types.Mesh, mat: bpy.types.Material, at: Vec, rot: Vec, bevel: float = 0.0, angle: float = 35.0
) -> bpy.types.Object:
    """Put a mesh into the scene with smooth shading, rounded edges and a material."""
    mesh.polygons.foreach_set("use_smooth", [True] * len(mesh.polygons))
    mesh.set_sharp_from_angle(angle=math.radians(angle))
    item = bpy.data.objects.new("part", mesh)
    bpy.context.collection.objects.link(item)
    mesh.materials.append(mat)
    turn = Euler([math.radians(a) for a in rot]).to_matrix().to_4x4()
    item.matrix_world = STACK[-1] @ Matrix.Translation(at) @ turn
    if bevel:
        tool = item.modifiers.new("bevel", "BEVEL")
        tool.width, tool.segments, tool.limit_method = bevel, 3, "ANGLE"
        tool.harden_normals, tool.angle_limit = True, math.radians(angle)
    return item


def from_bmesh(shape: bmesh.types.BMesh) -> bpy.types.Mesh:
    """Bake a bmesh."""
    mesh = bpy.data.meshes.new("part")
    bmesh.ops.recalc_face_normals(shape, faces=shape.faces)
    shape.to_mesh(mesh)
    shape.free()
    return mesh


def box(
    size: Vec, at: Vec, mat: bpy.types.Material, rot: Vec = (0, 0, 0), bevel: float = 0.03, taper: float = 1.0
) -> bpy.types.Object:
    """A block centred at `at`; `taper` shrinks its top."""
    shape = bmesh.new()
    bmesh.ops.create_cube(shape, size=1.0)
    for vert in shape.verts:
        shrink = taper if vert.co.z > 0 else 1.0
        vert.co = Vector((vert.co.x * size[0] * shrink, vert.co.y * size[1] * shrink, vert.co.z * size[2]))
    return finish(from_bmesh(shape), mat, at, rot, min(bevel, min(size) * 0.45))


def lathe(
    profile: Flat, at: Vec, mat: bpy.types.Material, rot: Vec = (0, 0, 0), sides: int = 72, bevel: float = 0.0
) -> bpy.types.Object:
    """Turn a profile of (radius, z) round the z axis."""
    shape, rings = bmesh.new(), []
    for radius, z in profile:
        if radius < 1e-6:
            rings.append([shape.verts.new((0, 0, z))])
            continue
        rings.append(
            [
                shape.verts.new((radius * math.cos(t), radius * math.sin(t), z))
                for t in (math.tau * i / sides for i in range(sides))
            ]
        )
    for low, high in itertools.pairwise(rings):
        for i in range(sides):
            j = (i + 1) % sides
            corners = [low[i % len(low)], low[j % len(low)], high[j % len(high)], high[i % len(high)]]
            unique = list(dict.fromkeys(corners))
            if len(unique) > 2:
                shape.faces.new(unique)
    return finish(from_bmesh(shape), mat, at, rot, bevel, 30)


def cyl(
    radius: float,
    length: float,
    at: Vec,
    mat: bpy.types.Material,
    rot: Vec = (0, 0, 0),
    bevel: float = 0.02,
    sides: int = 64,
) -> bpy.types.Object:
    """A cylinder centred at `at`, along z before turning."""
    b, h = min(bevel, radius * 0.4, length * 0.4), length / 2
    profile = [
        (0, -h),
        (radius - b, -h),
        (radius - b * 0.3, -h + b * 0.3),
        (radius, -h + b),
        (radius, h - b),
        (radius - b * 0.3, h - b * 0.3),
        (radius - b, h),
        (0, h),
    ]
    return lathe(profile, at, mat, rot, sides)


def ring(
    outer: float,
    inner: float,
    length: float,
    at: Vec,
    mat: bpy.types.Material,
    rot: Vec = (0, 0, 0),
    bevel: float = 0.015,
    sides: int = 72,
) -> bpy.types.Object:
    """A tube wall with softened edges."""
    b, h = min(bevel, (outer - inner) * 0.3, length * 0.3), length / 2
    profile = [
        (inner, -h + b),
        (inner + b, -h),
        (outer - b, -h),
        (outer, -h + b),
        (outer, h - b),
        (outer - b, h),
        (inner + b, h),
        (inner, h - b),
        (inner, -h + b),
    ]
    return lathe(profile, at, mat, rot, sides)


def slab(
    outline: Flat,
    thick: float,
    at: Vec,
    mat: bpy.types.Material,
    rot: Vec = (0, 0, 0),
    bevel: float = 0.02,
    angle: float = 35.0,
) -> bpy.types.Object:
    """A flat outline given a thickness, centred on z = 0 before moving."""
    shape = bmesh.new()
    low = [shape.verts.new((x, y, -thick / 2)) for x, y in outline]
    high = [shape.verts.new((x, y, thick / 2)) for x, y in outline]
    shape.faces.new(low)
    shape.faces.new(high)
    for i in range(len(outline)):
        j = (i + 1) % len(outline)
        shape.faces.new((low[i], low[j], high[j], high[i]))
    return finish(from_bmesh(shape), mat, at, rot, bevel, angle)


def rounded(width: float, height: float, radius: float, steps: int = 6) -> list[tuple[float, float]]:
    """The outline of a rectangle with round corners."""
    points = []
    for index, (sx, sy) in enumerate(((1, 1), (-1, 1), (-1, -1), (1, -1))):
        for k in range(steps + 1):
            t = math.pi / 2 * (index + k / steps)
            points.append(
                (sx * (width / 2 - radius) + radius * math.cos(t), sy * (height / 2 - radius) + radius * math.sin(t))
            )
    return points


def smooth(points: Sequence[Vec], closed: bool = False, steps: int = 10) -> list[Vector]:
    """A Catmull-Rom path through the points."""
    knots = [Vector(p) for p in points]
    knots = [knots[-1], *knots, *knots[:2]] if closed else [knots[0], *knots, knots[-1]]
    path = []
    for a, b, c, d in zip(knots, knots[1:], knots[2:], knots[3:], strict=False):
        for k in range(steps):
            t = k / steps
            path.append(
                0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t * t + (3 * b - a - 3 * c + d) * t**3)
            )
    return path if closed else [*path, knots[-2]]


def tube(
    points: Sequence[Vec],
    radius: float,
    mat: bpy.types.Material,
    closed: bool = False,
    bend: float = 0.0,
    curved: bool = True,
) -> bpy.types.Object:
    """A pipe or hose through the points: a smooth path, or straight runs with bends of radius `bend`."""
    path = smooth(points, closed) if curved else bent(points, bend, closed)
    curve = bpy.data.curves.new("tube", "CURVE")
    curve.dimensions, curve.bevel_depth, curve.bevel_resolution, curve.use_fill_caps = "3D", radius, 4, True
    spline = curve.splines.new("POLY")
    spline.points.add(len(path) - 1)
    for point, co in zip(spline.points, path, strict=True):
        point.co = (*co, 1)
    spline.use_cyclic_u, spline.use_smooth = closed, True
    item = bpy.data.objects.new("tube", curve)
    bpy.context.collection.objects.link(item)
    item.matrix_world = STACK[-1].copy()
    curve.materials.append(mat)
    return item


def bent(points: Sequence[Vec], radius: float, closed: bool) -> list[Vector]:
    """Straight runs whose corners are rounded like bent pipe."""
    knots, path = [Vector(p) for p in points], []
    for i, knot in enumerate(knots):
        if not closed and i in (0, len(knots) - 1):
            path.append(knot)
            continue
        before, after = knots[i - 1], knots[(i + 1) % len(knots)]
        r = min(radius, (before - knot).length * 0.48, (after - knot).length * 0.48)
        a, b = knot + (before - knot).normalized() * r, knot + (after - knot).normalized() * r
        path += [a.lerp(knot, t).lerp(knot.lerp(b, t), t) for t in (k / 8 for k in range(9))]
    return path


def ball(radius: float, at: Vec, mat: bpy.types.Material, squash: Vec = (1, 1, 1)) -> bpy.types.Object:
    """A sphere, squashed at will."""
    shape = bmesh.new()
    bmesh.ops.create_uvsphere(shape, u_segments=40, v_segments=24, radius=radius)
    bmesh.ops.scale(shape, vec=squash, verts=shape.verts)
    return finish(from_bmesh(shape), mat, at, (0, 0, 0), 0, 80)


def hex_bolt(at: Vec, mat: bpy.types.Material, size: float = 0.09, rot: Vec = (0, 0, 0)) -> None:
    """A flanged hexagon head, axis along z before turning."""
    with place(at, rot):
        cyl(size * 1.25, size * 0.3, (0, 0, size * 0.15), mat, bevel=0.01, sides=32)
        hexagon = [(size * math.cos(math.tau * i / 6), size * math.sin(math.tau * i / 6)) for i in range(6)]
        slab(hexagon, size * 0.8, (0, 0, size * 0.6), mat, bevel=size * 0.12)


def socket_bolt(at: Vec, mat: bpy.types.Material, size: float = 0.08, rot: Vec = (0, 0, 0)) -> None:
    """A cap screw with a star recess that reads as a dark dot."""
    with place(at, rot):
        lathe(
            [
                (0, size * 0.15),
                (size * 0.5, size * 0.15),
                (size * 0.5, size * 0.9),
                (size * 0.85, size * 0.9),
                (size, size * 0.75),
                (size, 0),
            ],
            (0, 0, 0),
            mat,
            sides=32,
        )


def rivet(at: Vec, mat: bpy.types.Material, size: float = 0.05, rot: Vec = (0, 0, 0)) -> None:
    """A domed blind rivet."""
    with place(at, rot):
        lathe(
            [
                (size, 0),
                (size, size * 0.2),
                (size * 0.75, size * 0.5),
                (size * 0.4, size * 0.58),
                (size * 0.3, size * 0.35),
                (0, size * 0.35),
            ],
            (0, 0, 0),
            mat,
            sides=28,
        )


def sign(
    face: str,
    width: float,
    height: float,
    at: Vec,
    rot: Vec = (0, 0, 0),
    relief: float = 0.0,
    radius: float = 0.06,
    **more: float,
) -> bpy.types.Object:
    """A thin printed plate facing +z before turning."""
    mat = surface(
        (1, 1, 1), face=face, relief=relief, **{"rough": 0.4, "bump": 0.1, "dust": 0.1, "grime": 0.35, **more}
    )
    return slab(rounded(width, height, radius), 0.02, at, mat, rot, 0.004)


def gear_outline(
    teeth: int, outer: float, depth: float, broken: range | None = None, seed: int = 1
) -> list[tuple[float, float]]:
    """The outline of a spur gear; teeth in `broken` are torn off unevenly."""
    rng, points = random.Random(seed), []
    for tooth in range(teeth):
        tip = outer
        if broken and tooth in broken:
            tip = outer - depth * rng.uniform(0.55, 0.95)
        for share, radius in (
            (0.0, outer - depth),
            (0.22, outer - depth),
            (0.36, tip - (outer - tip) * 0.05),
            (0.62, tip - rng.uniform(0, depth * 0.25) * (tip < outer)),
            (0.76, outer - depth),
        ):
            t = math.tau * (tooth + share) / teeth
            points.append((radius * math.cos(t), radius * math.sin(t)))
    return points


def jagged(points: Flat, width: float, seed: int = 3, steps: int = 7) -> list[tuple[float, float]]:
    """A ragged ribbon along a line: the outline of a crack that tapers to nothing."""
    rng, line = random.Random(seed), []
    for (x0, y0), (x1, y1) in itertools.pairwise(points):
        for k in range(steps):
            t = k / steps
            line.append(
                (x0 + (x1 - x0) * t + rng.uniform(-1, 1) * width, y0 + (y1 - y0) * t + rng.uniform(-1, 1) * width)
            )
    line.append(points[-1])
    left, right = [], []
    for i, (x, y) in enumerate(line):
        share = math.sin(math.pi * (0.04 + 0.92 * i / (len(line) - 1)))
        a, b = line[max(i - 1, 0)], line[min(i + 1, len(line) - 1)]
        length = math.hypot(b[0] - a[0], b[1] - a[1]) or 1.0
        nx, ny = -(b[1] - a[1]) / length, (b[0] - a[0]) / length
        w = width * share * rng.uniform(0.5, 1.0)
        left.append((x + nx * w, y + ny * w))
        right.append((x - nx * w, y - ny * w))
    return left + right[::-1]


def hole_outline(radius: float, seed: int = 5, count: int = 22, rough: float = 0.3) -> list[tuple[float, float]]:
    """A ragged hole."""
    rng = random.Random(seed)
    return [
        (r * math.cos(t), r * math.sin(t))
        for r, t in ((radius * rng.uniform(1 - rough, 1 + rough), math.tau * i / count) for i in range(count))
    ]


def cut(item: bpy.types.Object, cutter: bpy.types.Object) -> None:
    """Take the cutter's volume out of the item."""
    tool = item.modifiers.new("cut", "BOOLEAN")
    tool.operation, tool.object, tool.solver = "DIFFERENCE", cutter, "EXACT"
    tool.use_self, tool.material_mode = True, "TRANSFER"
    cutter.modifiers.clear()
    if item.modifiers[0].type == "BEVEL":
        for old in [each for each in item.modifiers if each.type == "WEIGHTED_NORMAL"]:
            item.modifiers.remove(old)
        item.modifiers.new("normals", "WEIGHTED_NORMAL").weight = 100
    cutter.hide_render = True


def rag(at: Vec, size: float, colour: Vec, seed: int = 1) -> None:
    """A shop cloth thrown down in folds."""
    rng, shape = random.Random(seed), bmesh.new()
    bmesh.ops.create_grid(shape, x_segments=70, y_segments=70, size=size / 2)
    waves = [(rng.uniform(1, 5) / size * 2, rng.uniform(0, 6.28), rng.uniform(0, 6.28)) for _ in range(7)]
    for vert in shape.verts:
        x, y = vert.co.x, vert.co.y
        lift = sum(math.sin(f * (x * math.cos(a) + y * math.sin(a)) + p) / (f * 2.4 + 1) for f, a, p in waves)
        vert.co.z = max(0.0, lift * 0.22 * size / 2) + 0.02
        vert.co.x += 0.10 * math.sin(2.3 * y + seed)
        vert.co.y += 0.10 * math.sin(2.9 * x + seed * 2)
    mat = surface(colour, rough=0.9, scratch=0, grain=120, bump=0.6, grime=0.8, dust=0.0)
    finish(from_bmesh(shape), mat, at, (0, 0, rng.uniform(0, 90)), 0, 180)


# ---------------------------------------------------------------- the workshop


def plane(width: float, depth: float, at: Vec, mat: bpy.types.Material, rot: Vec = (0, 0, 0)) -> bpy.types.Object:
    """A flat sheet."""
    shape = bmesh.new()
    bmesh.ops.create_grid(shape, x_segments=1, y_segments=1, size=0.5)
    bmesh.ops.scale(shape, vec=(width, depth, 1), verts=shape.verts)
    return finish(from_bmesh(shape), mat, at, rot)


def wood() -> bpy.types.Material:
    """Old bench planks along x."""
    g = Nodes("wood")
    local = g.tree.nodes.new("ShaderNodeTexCoord").outputs["Object"]
    across = g.add("SeparateXYZ", 1, i0=local)
    plank = g.math("FLOOR", g.math("DIVIDE", across, 1.35))
    shift = g.add("CombineXYZ", i0=g.math("MULTIPLY", plank, 7.3), i1=g.math("MULTIPLY", plank, 3.1), i2=plank)
    moved = g.add("VectorMath", 0, operation="ADD", i0=local, i1=shift)
    growth = g.noise(moved, 1.0, 8, (0.22, 3.2, 1))
    fibre = g.noise(moved, 7.0, 4, (0.12, 9, 1))
    base = g.mix(g.step(growth, 0.3, 0.7), (0.20, 0.115, 0.055), (0.34, 0.21, 0.105))
    base = g.mix(g.step(fibre, 0.45, 0.7, 0.55), base, (0.10, 0.058, 0.03))
    stain = g.step(g.noise(local, 0.42, 5), 0.50, 0.66, 0.75)
    base = g.mix(stain, base, (0.035, 0.026, 0.02))
    drops = g.step(g.noise(local, 2.6, 2), 0.70, 0.73, 0.7)
    base = g.mix(drops, base, (0.02, 0.016, 0.013))
    knife = g.step(g.noise(local, 2.2, 2, (0.6, 18, 1), (3, 0, 0)), 0.70, 0.715)
    base = g.mix(g.math("MULTIPLY", knife, 0.5), base, (0.45, 0.33, 0.2))
    edge = g.math("ABSOLUTE", g.math("SUBTRACT", g.math("FRACT", g.math("DIVIDE", across, 1.35)), 0.5))
    gap = g.step(edge, 0.488, 0.497)
    base = g.mix(gap, base, (0.008, 0.006, 0.005))
    height = g.math("SUBTRACT", g.math("MULTIPLY", fibre, 0.6), g.math("MULTIPLY", gap, 3.0))
    normal = g.add("Bump", s_strength=0.5, s_distance=0.02, s_height=height)
    shader = g.add("BsdfPrincipled", s_base_color=base, s_roughness=g.blend(stain, 0.62, 0.38), s_normal=normal)
    g.output(shader, (0.22, 0.14, 0.07))
    return g.material


def concrete(wet: tuple[float, float, float] | None = None) -> bpy.types.Material:
    """A workshop floor with oil spots; `wet` is a place and a radius that water has darkened."""
    g = Nodes("concrete")
    local = g.tree.nodes.new("ShaderNodeTexCoord").outputs["Object"]
    cloud = g.noise(local, 0.25, 8)
    base = g.mix(g.step(cloud, 0.3, 0.7), (0.135, 0.132, 0.125), (0.235, 0.228, 0.215))
    sand = g.noise(local, 22, 3)
    base = g.mix(g.step(sand, 0.55, 0.75, 0.4), base, (0.10, 0.098, 0.092))
    oil = g.step(g.noise(local, 0.33, 4, shift=(5, 2, 0)), 0.58, 0.72, 0.7)
    base = g.mix(oil, base, (0.045, 0.041, 0.037))
    wander = g.add(
        "VectorMath",
        0,
        operation="ADD",
        i0=local,
        i1=g.add(
            "VectorMath",
            0,
            operation="SCALE",
            i0=g.add("TexNoise", 1, s_vector=local, s_scale=0.8, s_detail=4.0),
            i3=0.9,
        ),
    )
    crack = g.step(g.add("TexVoronoi", 0, feature="DISTANCE_TO_EDGE", s_vector=wander, s_scale=0.07), 0.0016, 0.0006)
    base = g.mix(crack, base, (0.06, 0.055, 0.05))
    rough: object = g.blend(oil, 0.72, 0.4)
    height: object = g.math("SUBTRACT", g.math("MULTIPLY", sand, 0.5), g.math("MULTIPLY", crack, 1.5))
    if wet:
        away = g.add("VectorMath", 1, operation="DISTANCE", i0=local, i1=(wet[0], wet[1], 0.0))
        ragged = g.math(
            "ADD",
            g.math("DIVIDE", away, wet[2]),
            g.math("MULTIPLY", g.math("SUBTRACT", g.noise(local, 0.55, 5), 0.5), 1.5),
        )
        damp, pool = g.step(ragged, 1.0, 0.86), g.step(ragged, 0.74, 0.68)
        base = g.mix(g.math("MULTIPLY", damp, 0.72), base, (0.045, 0.043, 0.04))
        rough = g.blend(damp, rough, 0.34)
        rough = g.blend(pool, rough, 0.02)
        height = g.math("MULTIPLY", height, g.math("SUBTRACT", 1.0, g.math("MULTIPLY", pool, 0.97)))
    normal = g.add("Bump", s_strength=0.35, s_distance=0.03, s_height=height)
    shader = g.add("BsdfPrincipled", s_base_color=base, s_roughness=rough, s_normal=normal)
    g.output(shader, (0.27, 0.265, 0.25))
    return g.material


def wall(distance: float, width: float = 160, height: float = 60, floor: float = 0) -> None:
    """Painted concrete blocks: cream above a grey-green dado."""
    g = Nodes("wall")
    local = g.tree.nodes.new("ShaderNodeTexCoord").outputs["Object"]
    brick = g.tree.nodes.new("ShaderNodeTexBrick")
    for name, value in (("Scale", 0.25), ("Mortar Size", 0.012), ("Mortar Smooth", 0.6)):
        brick.inputs[name].default_value = value
    g.link(local, brick.inputs[0])
    up = g.add("SeparateXYZ", 1, i0=local)
    base = g.mix(
        g.step(up, -height / 2 + 12 - floor, -height / 2 + 12.05 - floor), (0.16, 0.20, 0.18), (0.56, 0.53, 0.45)
    )
    base = g.mix(g.step(g.noise(local, 0.3, 6), 0.45, 0.8, 0.4), base, (0.2, 0.19, 0.16))
    normal = g.add("Bump", s_strength=0.6, s_distance=0.15, s_height=brick.outputs[1], invert=True)
    shader = g.add("BsdfPrincipled", s_base_color=base, s_roughness=0.55, s_normal=normal)
    g.output(shader, (0.45, 0.43, 0.36))
    plane(width, height, (0, distance, height / 2 + floor), g.material, (90, 0, 0))


def light(at: Vec, aim: Vec, size: tuple[float, float], power: float, colour: Vec) -> None:
    """A rectangular lamp pointed at a place."""
    lamp = bpy.data.lights.new("lamp", "AREA")
    lamp.shape, lamp.size, lamp.size_y, lamp.energy, lamp.color = "RECTANGLE", size[0], size[1], power, colour
    item = bpy.data.objects.new("lamp", lamp)
    bpy.context.collection.objects.link(item)
    turn = (Vector(aim) - Vector(at)).to_track_quat("-Z", "Y").to_matrix().to_4x4()
    item.matrix_world = Matrix.Translation(at) @ turn


def daylight(side: float = -1, power: float = 1.0, lamp: float = 1.0, reach: float = 1.0, back: float = 2.0) -> None:
    """One window with glazing bars, one warm lamp, and what the room throws back."""
    spot = (side * 13 * reach, back * reach, 13 * reach)
    for dx, dz in ((-1, 1), (1, 1), (-1, -1), (1, -1)):
        pane = (spot[0], spot[1] + dx * 2.6 * reach, spot[2] + dz * 2.6 * reach)
        light(pane, (0, 0, 0), (4.6 * reach, 4.6 * reach), 620 * power * reach**2, (0.86, 0.93, 1.0))
    light(
        (-side * 6 * reach, -3 * reach, 15 * reach),
        (0, 1, 0),
        (3.0 * reach, 0.9 * reach),
        520 * lamp * reach**2,
        (1.0, 0.78, 0.52),
    )
    world = bpy.data.worlds.new("room")
    bpy.context.scene.world = world
    world.use_nodes = True
    world.node_tree.nodes["Background"].inputs[0].default_value = (0.52, 0.55, 0.6, 1)
    world.node_tree.nodes["Background"].inputs[1].default_value = 0.28


def bench(kind: str = "wood", seed: int = 1, far: float = 15.0, clutter: bool = True) -> None:
    """A bench top with a wall behind it and the usual things lying about."""
    tops = {
        "wood": wood,
        "steel": lambda: surface((0.42, 0.43, 0.44), 0.9, 0.42, grime=0.75, scratch=1.0, dust=0.15, scale=0.45),
        "mat": lambda: surface((0.035, 0.06, 0.056), 0, 0.75, grime=0.3, scratch=0.4, dust=0.12, grain=60, scale=0.7),
        "card": lambda: surface((0.36, 0.235, 0.125), 0, 0.85, grime=0.5, scratch=0.25, dust=0.0, grain=25, scale=0.5),
    }
    item = plane(60, 26, (seed * 1.7 % 5, far - 13 - 2, 0), tops[kind]())
    item.location.z = 0
    wall(far, floor=-10)
    if clutter:
        litter(seed, far)


def litter(seed: int, far: float) -> None:
    """A jar, a spanner, boxes, a rag and a can along the back of the bench."""
    rng = random.Random(seed)
    for x in range(-14, 15, 4):
        spot = (x + rng.uniform(-1, 1), far - rng.uniform(2.5, 5.5), 0)
        kind = rng.randrange(5)
        if kind == 0:
            size = (rng.uniform(1.5, 3), rng.uniform(1.5, 2.5), rng.uniform(1, 2.2))
            tone = rng.choice([(0.36, 0.235, 0.125), (0.08, 0.1, 0.16), (0.3, 0.04, 0.03), (0.5, 0.48, 0.42)])
            box(size, (spot[0], spot[1], size[2] / 2), surface(tone, rough=0.7), (0, 0, rng.uniform(-30, 30)))
        elif kind == 1:
            tone = rng.choice([(0.4, 0.05, 0.03), (0.05, 0.12, 0.3), (0.5, 0.4, 0.05), (0.5, 0.5, 0.5)])
            cyl(0.65, 1.9, (spot[0], spot[1], 0.95), paint(tone), bevel=0.08)
            cyl(0.2, 0.35, (spot[0], spot[1], 2.05), plastic((0.02, 0.02, 0.02)))
        elif kind == 2:
            rag(
                (spot[0], spot[1], 0), 2.8, rng.choice([(0.3, 0.03, 0.025), (0.1, 0.16, 0.25), (0.5, 0.48, 0.42)]), seed
            )
        elif kind == 3:
            spanner((spot[0], spot[1], 0.07), rng.uniform(-40, 40))
        else:
            ring(0.7, 0.62, 1.5, (spot[0], spot[1], 0.75), steel(rough=0.4))
            for k in range(5):
                cyl(
                    0.06,
                    2.6,
                    (spot[0] + rng.uniform(-0.4, 0.4), spot[1] + rng.uniform(-0.4, 0.4), 1.3),
                    plastic(rng.choice([(0.4, 0.03, 0.02), (0.02, 0.02, 0.02), (0.4, 0.3, 0.02)])),
                    (rng.uniform(-12, 12), rng.uniform(-12, 12), k),
                )


def spanner(at: Vec, turn: float, length: float = 2.2) -> None:
    """A combination spanner."""
    mat, h = steel(rough=0.25, grime=0.3), length / 2
    with place(at, (0, 0, turn)):
        slab([(-h, -0.09), (h, -0.07), (h, 0.07), (-h, 0.09)], 0.09, (0, 0, 0), mat, bevel=0.03)
        ring(0.25, 0.15, 0.13, (h + 0.15, 0, 0.02), mat)
        jaw = [
            (-0.3, -0.12),
            (-0.1, -0.27),
            (0.2, -0.24),
            (0.33, -0.1),
            (0.05, -0.12),
            (0.0, 0),
            (0.05, 0.12),
            (0.33, 0.1),
            (0.2, 0.24),
            (-0.1, 0.27),
            (-0.3, 0.12),
        ]
        slab([(-x, y) for x, y in jaw], 0.13, (-h - 0.2, 0, 0.02), mat, bevel=0.025)


def yard(seed: int = 1, wet: tuple[float, float, float] | None = None, far: float = 24.0) -> None:
    """A concrete floor, a block wall, a steel cabinet, shelves and tyres in the distance."""
    rng = random.Random(seed)
    plane(180, 120, (0, 20, 0), concrete((wet[0], wet[1] - 20, wet[2]) if wet else None))
    wall(far)
    for x in range(-30, 40, 9):
        spot, kind = x + rng.uniform(-2, 2), rng.randrange(4)
        if kind == 0:
            tone = paint(rng.choice([(0.25, 0.02, 0.02), (0.08, 0.1, 0.13), (0.05, 0.1, 0.2)]))
            box((7, 4.5, 9), (spot, far - 3, 4.7), tone, bevel=0.1)
            for k in range(5):
                box((6.4, 0.1, 1.35), (spot, far - 5.28, 1.2 + k * 1.6), tone, bevel=0.05)
                box((3, 0.15, 0.2), (spot, far - 5.4, 1.6 + k * 1.6), steel())
        elif kind == 1:
            for k in range(3):
                ring(2.6 - k * 0.2, 1.3, 1.5, (spot, far - 4, 0.8 + k * 1.55), rubber(), bevel=0.4)
        elif kind == 2:
            for k in range(3):
                box((8, 3, 0.25), (spot, far - 2.5, 2 + k * 4), wood())
                for j in range(3):
                    h = rng.uniform(1, 3)
                    box(
                        (2, 2, h),
                        (spot - 2.6 + j * 2.6, far - 2.5, 2.15 + k * 4 + h / 2),
                        surface(
                            rng.choice([(0.36, 0.235, 0.125), (0.5, 0.48, 0.4), (0.06, 0.12, 0.2), (0.3, 0.03, 0.02)]),
                            rough=0.7,
                        ),
                    )
            for dx in (-4, 4):
                box((0.3, 3, 14), (spot + dx, far - 2.5, 7), steel(grime=0.6), bevel=0.03)
        else:
            cyl(2.4, 7, (spot, far - 4, 3.5), paint(rng.choice([(0.03, 0.09, 0.22), (0.35, 0.08, 0.02)])), bevel=0.2)


def shoot(
    path: Path,
    eye: Vec,
    target: Vec,
    lens: float = 32.0,
    fstop: float = 1.0,
    focus: Vec | None = None,
    seed: int = 1,
    width: int = 1152,
    samples: int = 24,
    exposure: float = 0.0,
) -> None:
    """Take the picture: a phone held by hand, so never quite level."""
    rng, scene = random.Random(seed), bpy.context.scene
    width, samples = (480, 10) if DRAFT else (width, samples)
    data = bpy.data.cameras.new("phone")
    data.lens, data.dof.use_dof, data.dof.aperture_fstop = lens, True, fstop
    data.dof.focus_distance = (Vector(focus or target) - Vector(eye)).length
    item = bpy.data.objects.new("phone", data)
    bpy.context.collection.objects.link(item)
    turn = (Vector(target) - Vector(eye)).to_track_quat("-Z", "Y").to_matrix().to_4x4()
    item.matrix_world = Matrix.Translation(eye) @ turn @ Matrix.Rotation(math.radians(rng.uniform(-2, 2)), 4, "Z")
    scene.camera = item
    scene.render.resolution_x, scene.render.resolution_y = width, width * 3 // 4
    scene.cycles.samples, scene.cycles.seed = samples, seed
    scene.view_settings.exposure = exposure + rng.uniform(-0.1, 0.1)
    scene.render.image_settings.file_format = "PNG"
    scene.render.filepath = str(path)
    bpy.ops.render.render(write_still=True)
