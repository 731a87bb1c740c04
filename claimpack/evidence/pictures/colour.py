"""Colour: any pixel format becomes sRGB or grey, as the picture's colour profile says."""

from __future__ import annotations

import io
from functools import lru_cache

from PIL import Image, ImageChops, ImageCms

BROKEN_PROFILE = "its colour profile is broken; the colours are taken as sRGB"
NO_PRINT_PROFILE = "it is in printing colours without a profile; the colours are near, not exact"

# colours that both spaces have stay what they are, which a picture of damage needs more than pleasing ones
_INTENT = ImageCms.Intent.RELATIVE_COLORIMETRIC
_FLAGS = ImageCms.Flags.BLACKPOINTCOMPENSATION
# pure colours, white, greys and an orange: where these stay, a profile changes nothing an eye would see
_PROBES = (
    *(255, 0, 0, 0, 255, 0, 0, 0, 255),
    *(255, 255, 0, 0, 255, 255, 255, 255, 255),
    *(128, 128, 128, 64, 64, 64, 200, 120, 40),
)
# Of 255: no eye tells two shades apart that differ by so little.
_VISIBLE = 2
_SPACES = {"RGB": "RGB", "GRAY": "L", "CMYK": "CMYK"}


def plain(picture: Image.Image) -> Image.Image:
    """The picture in RGB, L or CMYK, whatever was transparent now on white."""
    if picture.has_transparency_data:
        layered = picture.convert("RGBA")
        # as it would look on paper
        ground = Image.new("RGB", layered.size, "white")
        ground.paste(layered, mask=layered.getchannel("A"))
        return ground
    if picture.mode in ("RGB", "L", "CMYK"):
        return picture
    if picture.mode == "LAB":
        source = ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB"))
        return ImageCms.ImageCmsTransform(source, _srgb(), "LAB", "RGB", _INTENT).apply(picture)
    return picture.convert("L" if picture.mode == "1" else "RGB")


def eight_bit(picture: Image.Image) -> Image.Image:
    """The picture with at most eight bits a channel: deep greys are scaled, not clipped."""
    if picture.mode not in ("I", "F") and not picture.mode.startswith("I;16"):
        return picture
    scale = 255 / _white(picture)
    wide = picture.convert("I") if picture.mode.startswith("I;16") else picture
    return wide.point(lambda value: value * scale + 0.5).convert("L")


def _white(picture: Image.Image) -> float:
    brightest = 65535 if picture.mode.startswith("I;16") else picture.getextrema()[1]
    # deep greys have no white of their own: the next usual one above the brightest is taken
    top = float(brightest) if isinstance(brightest, (int, float)) else 255.0
    return next((white for white in (1.0, 255.0, 65535.0, top) if top <= white), 255.0)


def to_srgb(picture: Image.Image, profile: bytes | None) -> tuple[Image.Image, tuple[str, ...]]:
    """An RGB, L or CMYK picture in sRGB or grey, with a note when the colours are only near."""
    note: tuple[str, ...] = ()
    if profile:
        try:
            transform = _to_srgb(profile, picture.mode)
            return (transform.apply(picture).convert(_kept(picture)) if transform else picture), note
        except (ImageCms.PyCMSError, OSError, ValueError):
            note = (BROKEN_PROFILE,)
    if picture.mode == "CMYK":
        return picture.convert("RGB"), note or (NO_PRINT_PROFILE,)
    return picture, note


def is_srgb(profile: bytes | None) -> bool:
    """Whether colours under this profile look the same as without one; a broken profile gives False."""
    try:
        return not profile or _to_srgb(profile, "RGB") is None
    except (ImageCms.PyCMSError, OSError, ValueError):
        return False


@lru_cache(maxsize=16)
def _to_srgb(profile: bytes, mode: str) -> ImageCms.ImageCmsTransform | None:
    source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
    space = _SPACES.get(source.profile.xcolor_space.strip())
    # a grey picture with a colour profile is grey all the same; cameras write such
    if space == "RGB" and mode == "L":
        return None
    if space != mode:
        raise ValueError(f"a profile for {source.profile.xcolor_space} on a picture in {mode}")
    transform = ImageCms.ImageCmsTransform(source, _srgb(), mode, "RGB", _INTENT, flags=_FLAGS)
    # most phones write sRGB under some name; without a change the picture need not be decoded
    return None if mode != "CMYK" and _changes_nothing(transform, mode) else transform


def _kept(picture: Image.Image) -> str:
    return "L" if picture.mode == "L" else "RGB"


def _srgb() -> ImageCms.ImageCmsProfile:
    return ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB"))


def _changes_nothing(transform: ImageCms.ImageCmsTransform, mode: str) -> bool:
    probe = Image.frombytes(mode, (len(_PROBES) // len(mode), 1), bytes(_PROBES))
    changes = ImageChops.difference(probe.convert("RGB"), transform.apply(probe))
    return max(changes.tobytes()) <= _VISIBLE
