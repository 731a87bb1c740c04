"""Tags in the language of label printers, each as the picture that a thermal printer would get anyway."""

from __future__ import annotations

from collections.abc import Sequence

from claimpack.core.holding.tags import TagFacts
from claimpack.tag.draw import tag_picture
from claimpack.tag.stock import Stock


def tag_zpl(tags: Sequence[TagFacts], stock: Stock, dpi: int) -> bytes:
    """The tags in ZPL, a label each: nothing but whole dots, so that the printer needs no typeface of its own.

    Args:
        tags: what each says, in the order they are printed.
        stock: the paper; of a sheet, one of its tags.
        dpi: dots an inch of the printer.

    Raises:
        BadInput: a barcode does not fit on the stock in dots of that size.

    Source: ZPL II, from memory: ^PW and ^LL are width and length in dots, ^GFA a graphic as hexadecimal digits, its
    bytes counted twice and the bytes of a row, a set bit being black.
    """
    return b"".join(_label(tag, stock, dpi) for tag in tags)


def _label(tag: TagFacts, stock: Stock, dpi: int) -> bytes:
    picture = tag_picture(tag, stock, dpi)
    across = (picture.width + 7) // 8
    # In a picture of two colours a set bit is white; what fills up the last byte of a row must stay white too.
    black = bytes(byte ^ 0xFF for byte in picture.tobytes())
    spare = across * 8 - picture.width
    rows = (black[start : start + across] for start in range(0, len(black), across))
    dots = b"".join(row[:-1] + bytes([row[-1] >> spare << spare]) for row in rows)
    lines = (
        "^XA",
        f"^PW{picture.width}",
        f"^LL{picture.height}",
        "^LH0,0",
        f"^FO0,0^GFA,{len(dots)},{len(dots)},{across},{dots.hex().upper()}^FS",
        "^XZ",
    )
    return ("\n".join(lines) + "\n").encode("ascii")
