"""The typefaces of other scripts on this machine: those of the extra `fonts` first, then those it has anyway."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator
from functools import cache
from importlib import resources
from io import BytesIO
from pathlib import Path
from typing import Any

from claimpack.printing.scripts.which import Script

_PACKAGES = ("justmytype_intl_cjk", "justmytype_intl_rtl")
# How the files of typefaces with outlines that can be embedded begin, those made for the script first.
_NAMES: dict[Script, tuple[str, ...]] = {
    "Japanese": ("NotoSansJP", "YuGothR", "meiryo", "msgothic", "ipaexg", "ipag", "TakaoGothic", "VL-Gothic"),
    "Chinese": ("NotoSansSC", "NotoSansTC", "msyh", "simhei", "simsun", "msjh", "STHeiti", "wqy-zenhei"),
    "Korean": ("NotoSansKR", "malgun", "gulim", "NanumGothic", "AppleGothic", "UnDotum"),
    "Arabic": ("NotoSansArabic", "tahoma", "arial", "Arial", "DejaVuSans"),
    "Hebrew": ("NotoSansHebrew", "arial", "Arial", "tahoma", "DejaVuSans"),
}
_FOR_ALL_OF_THE_EAST = ("wqy-microhei", "DroidSansFallback", "Arial Unicode", "ARIALUNI", "unifont")
_EAST: tuple[Script, ...] = ("Japanese", "Chinese", "Korean")
_SAMPLE: dict[Script, str] = {
    "Japanese": "あア",
    "Chinese": "中公",
    "Korean": "한글",
    "Arabic": "\ufee3\ufea2",
    "Hebrew": "אב",
}
_REGULAR = 400


@cache
def face_for(script: Script) -> str | None:
    """The typeface for a script, made known to the PDF engine; None where this machine has none that can be used.

    Scripts that run to the left need the libraries that put their letters in order, too.
    """
    if script in ("Arabic", "Hebrew") and not orders_leftward():
        return None
    return next((face for path in _candidates(script) if (face := _registered(script, path))), None)


@cache
def orders_leftward() -> bool:
    """Whether letters that run to the left can be shaped and put in order."""
    try:
        import arabic_reshaper  # noqa: F401 - asked for alone
        import bidi.algorithm  # noqa: F401 - asked for alone
    except ImportError:
        return False
    return True


def has(face: str, mark: str) -> bool:
    """Whether a typeface has a letter."""
    return ord(mark) in _font(face).face.charToGlyph


def file_of(face: str) -> BytesIO:
    """A typeface as a file, for pictures."""
    return BytesIO(_font(face).face._ttf_data)  # noqa: SLF001 - the engine keeps what it was given


def _font(face: str) -> Any:
    from reportlab.pdfbase import pdfmetrics

    return pdfmetrics.getFont(face)


def _candidates(script: Script) -> Iterator[Path]:
    names = (*_NAMES[script], *(_FOR_ALL_OF_THE_EAST if script in _EAST else ()))
    files = _files()
    for name in names:
        yield from (path for path in files if path.name.startswith(name))


@cache
def _files() -> tuple[Path, ...]:
    """Every file of a typeface, in a fixed order."""
    folders = [*_packaged(), *_usual()]
    return tuple(
        path
        for folder in folders
        if folder.is_dir()
        for path in sorted(folder.rglob("*"))
        if path.suffix.lower() in (".ttf", ".ttc", ".otf")
    )


def _packaged() -> Iterator[Path]:
    for package in _PACKAGES:
        try:
            yield Path(str(resources.files(package)))
        except ModuleNotFoundError:
            continue


def _usual() -> Iterable[Path]:
    """Where typefaces lie on Windows, macOS and other systems."""
    home, told = Path.home(), os.environ
    if sys.platform == "win32":
        own = Path(told.get("LOCALAPPDATA", str(home))) / "Microsoft" / "Windows" / "Fonts"
        return Path(told.get("WINDIR", "C:\\Windows")) / "Fonts", own
    if sys.platform == "darwin":
        return Path("/System/Library/Fonts"), Path("/Library/Fonts"), home / "Library" / "Fonts"
    return (
        Path("/usr/share/fonts"),
        Path("/usr/local/share/fonts"),
        home / ".local" / "share" / "fonts",
        home / ".fonts",
    )


def _registered(script: Script, path: Path) -> str | None:
    """The typeface in a file under a name of its own; None where it cannot be embedded or lacks the script."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFError, TTFont

    name = f"Claim-{script}"
    try:
        font = TTFont(name, BytesIO(_at_regular_weight(path.read_bytes())), shapable=False)
    except (TTFError, OSError, ValueError, KeyError, IndexError):
        return None
    if not all(ord(mark) in font.face.charToGlyph for mark in _SAMPLE[script]):
        return None
    pdfmetrics.registerFont(font)
    return name


def _at_regular_weight(content: bytes) -> bytes:
    """A typeface of many weights at its regular one, where the library that does it is there; others as they are."""
    try:
        import uharfbuzz
    except ImportError:
        return content
    face = uharfbuzz.Face(content)
    if not any(axis.tag == "wght" for axis in face.axis_infos):
        return content
    wanted = uharfbuzz.SubsetInput()
    wanted.keep_everything()
    wanted.pin_all_axes_to_default(face)
    wanted.pin_axis_location(face, "wght", _REGULAR)
    made = uharfbuzz.subset(face, wanted)
    return bytes(made.blob.data)
