"""The packet, the tags and the data of a claim, made in memory; the caller writes them."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from claimpack.commands.desk.gather import Case
    from claimpack.core.holding.tags import TagFacts
    from claimpack.packet.drawing.layout import Layout
    from claimpack.shop import Shop
    from claimpack.tag.stock import Stock
    from claimpack.template_files import Places

DEFAULT_LAYOUT = "letter"
DEFAULT_STOCK = "shipping-tag-8"


class Made(NamedTuple):
    """A document and what is to be said about it; empty where there was nothing to draw."""

    pdf: bytes
    notes: tuple[str, ...]


def claim_data(case: Case) -> bytes:
    """The claim and its assessment as one JSON document."""
    from claimpack.core.judging.assessment_json import as_json

    claim = case.claim.model_dump(mode="json", exclude_defaults=True)
    document = {"claim": claim, "assessment": as_json(case.assessment)}
    return (json.dumps(document, indent=2, ensure_ascii=False) + "\n").encode()


def the_layout(case: Case, wanted: str) -> Layout:
    """The packet layout wanted: by option, else the shop's, else the one that comes with the program."""
    from claimpack.packet.drawing.layout import layout_from
    from claimpack.template_files import PACKET, template, whole_layout

    found = template(PACKET, wanted or case.shop.settings.layout or DEFAULT_LAYOUT, case.places)
    return layout_from(whole_layout(found.keys, case.places, str(found.path)), str(found.path))


def the_stock(case: Case, wanted: str) -> Stock:
    """The tag stock wanted: by option, else the shop's, else the one that comes with the program."""
    return the_stock_at(case.shop, case.places, wanted)


def the_stock_at(shop: Shop, places: Places, wanted: str) -> Stock:
    """The tag stock wanted in a shop, looked for in these places."""
    from claimpack.tag.stock import stock_from
    from claimpack.template_files import TAG, template

    found = template(TAG, wanted or shop.settings.stock or DEFAULT_STOCK, places)
    return stock_from(found.keys, str(found.path))


def make_tags(case: Case, stock: str, part: int = 0, start: int = 1) -> Made:
    """The tags of a claim's held parts as a PDF; empty where none is held.

    Args:
        case: the claim, assessed.
        stock: the stock's id or file; empty for the shop's.
        part: the one part wanted, from 1; 0 for all.
        start: the first free place of a sheet that was partly used, from 1.
    """
    from claimpack.tag.draw import tag_notes, tag_pdf

    tags = _tags_of(case, part)
    if not tags:
        return Made(b"", ())
    paper = the_stock(case, stock)
    author = case.shop.settings.name or "claimpack"
    return Made(tag_pdf(tags, paper, author, start), tuple(tag_notes(tags, paper)))


def _tags_of(case: Case, part: int) -> list[TagFacts]:
    from claimpack.commands.desk.gather import spellings_in

    said = case.shop.settings
    dealer = said.dealer_number(*spellings_in(case))
    return [tag.of_shop(said.name, dealer) for tag in case.assessment.tags if part in (0, tag.place)]


def make_tag_labels(case: Case, stock: str, part: int, dpi: int) -> Made:
    """The tags in the language of label printers, one behind the other."""
    from claimpack.tag.draw import tag_notes
    from claimpack.tag.zpl import tag_zpl

    tags = _tags_of(case, part)
    paper = the_stock(case, stock)
    return Made(tag_zpl(tags, paper, dpi), tuple(tag_notes(tags, paper, dpi)))


def make_tag_pictures(case: Case, stock: str, part: int, dpi: int) -> tuple[dict[str, bytes], tuple[str, ...]]:
    """A PNG a tag for a thermal printer, by part index; by an empty name where there is one alone."""
    from claimpack.tag.draw import tag_notes, tag_png

    tags = _tags_of(case, part)
    paper = the_stock(case, stock)
    pictures = {("" if len(tags) == 1 else str(tag.place)): tag_png(tag, paper, dpi) for tag in tags}
    return pictures, tuple(tag_notes(tags, paper, dpi))
