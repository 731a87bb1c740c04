"""A shop with a book and claims in it, and pictures as a phone would hold them."""

from __future__ import annotations

import datetime as dt
import io
from pathlib import Path

from builders import CLAIM, changed
from made_once import made_once
from PIL import Image, ImageFilter
from running import NOW, claimpack

from claimpack.commands.desk.desk import Desk
from claimpack.commands.desk.world import World
from claimpack.core.claims.claim import Claim
from claimpack.core.events.events import NewEvent
from claimpack.core.holding.tags import TagFacts
from claimpack.folder.toml_files import read_toml
from claimpack.tag.draw import tag_png
from claimpack.tag.stock import stock_from
from claimpack.template_files import shipped


def the_desk(shop: Path) -> Desk:
    """The book of a shop, to be looked into."""
    return Desk(World(folder=shop, environ={"CLAIMPACK_WHO": "ann"}, clock=NOW))


@made_once
def an_empty_shop(place: Path) -> Path:
    """A shop whose book is empty."""
    claimpack("shop", "init", "shop", folder=place)
    return place / "shop"


@made_once
def a_shop(place: Path, *numbers: str, **changes: object) -> Path:
    """A shop with claims of these numbers; one, 26-0001, where none is named. Claims are changed as `a_claim` is."""
    shop = an_empty_shop(place)
    desk = the_desk(shop)
    for number in numbers or ("26-0001",):
        claim = Claim.model_validate(changed(CLAIM, {"number": number, **changes}))
        desk.add(claim, NewEvent(what="opened", on=NOW.date()))
    return shop


def happen(shop: Path, number: str, what: str, **facts: str) -> None:
    """Let something happen to a claim."""
    with the_desk(shop).changing(number) as changing:
        changing.keep(changing.claim, NewEvent(what=what, on=NOW.date(), facts=facts))


def kept_claim(shop: Path, number: str = "26-0001") -> Claim:
    """A claim as the book has it now."""
    return the_desk(shop).book.get(number).claim


def a_picture(shade: int = 0, size: tuple[int, int] = (900, 700)) -> Image.Image:
    """A picture unlike others of another shade."""
    width, height = size
    across = Image.linear_gradient("L").rotate(90).resize((width, height))
    down = Image.radial_gradient("L").resize((width, height))
    return Image.merge("RGB", (across, down, Image.new("L", size, shade * 37 % 256)))


def a_tag_code(code: str, dpi: int = 203) -> Image.Image:
    """The tag of a held part as a thermal printer leaves it; code is `NUMBER/INDEX`."""
    number, index = code.split("/")
    tag = TagFacts(
        claim=number,
        place=int(index),
        of=3,
        maker="Halden",
        model="CS-70",
        serial="HC70-1",
        part="short block",
        part_number="H70-4410",
        part_serial="",
        failed_on=None,
        held_since=None,
        hold_until=None,
        hold_terms="",
        shelf="B3",
        boxed=False,
        drained=True,
        hazard="fuel",
        cautions=("Fire hazard.",),
    )
    stock = next(path for path in sorted((shipped("tag")).glob("*.toml")) if path.stem == "label-4x6")
    return Image.open(io.BytesIO(tag_png(tag, stock_from(read_toml(stock), stock.name), dpi))).convert("RGB")


def with_tags(picture: Image.Image, *codes: str, turned: float = 0, blurred: float = 0) -> Image.Image:
    """A picture with tags lying in it, turned by so many degrees, out of focus by so many pixels."""
    framed = picture.copy()
    for place, code in enumerate(codes):
        tag = a_tag_code(code).rotate(turned, expand=True, fillcolor=(120, 110, 90))
        framed.paste(tag, (40 + place * (tag.width + 30), 40))
    return framed.filter(ImageFilter.GaussianBlur(blurred)) if blurred else framed


def photographed(path: Path, picture: Image.Image | None = None, taken: str = "", offset: str = "") -> Path:
    """A picture in a file as a camera leaves it; taken as in `2026-03-01 09:05:00`, empty for no time."""
    exif = Image.Exif()
    if taken:
        exif.get_ifd(0x8769)[0x9003] = dt.datetime.fromisoformat(taken).strftime("%Y:%m:%d %H:%M:%S")
    if offset:
        exif.get_ifd(0x8769)[0x9011] = offset
    path.parent.mkdir(parents=True, exist_ok=True)
    (picture or a_picture()).save(path, exif=exif, quality=90)
    return path
