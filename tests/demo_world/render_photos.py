"""Render the demo photographs: faces first (faces.py), then this, then camera.py.

python faces.py /tmp/faces
python render_photos.py /tmp/faces /tmp/raw [--only 26-0041-plate ...]
python camera.py /tmp/raw ../../sample_claims
"""

from __future__ import annotations

import argparse
import time
from pathlib import Path

import bpy  # noqa: F401  (must be loaded before bmesh)
import kit
from scenes import SCENES


def main() -> None:
    """Render every scene, or only the named ones."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("faces", type=Path)
    parser.add_argument("raw", type=Path)
    parser.add_argument("--only", nargs="*", default=[], help="keys, or beginnings of keys")
    parser.add_argument("--draft", action="store_true", help="small and noisy, to check the framing")
    args = parser.parse_args()
    kit.FACES, kit.DRAFT = args.faces, args.draft
    args.raw.mkdir(parents=True, exist_ok=True)
    for key, make in SCENES.items():
        if args.only and not any(key.startswith(name) for name in args.only):
            continue
        started = time.monotonic()
        kit.reset()
        make(args.raw / f"{key}.png")
        print(f"{key}: {time.monotonic() - started:.0f} s", flush=True)


if __name__ == "__main__":
    main()
