"""Claim folders gathered as the commands gather them."""

from __future__ import annotations

import io

from claim_folders import CLAIM, a_folder
from pypdf import PdfReader
from running import NOW

from claimpack.commands.desk.gather import gather
from claimpack.commands.desk.world import World


def a_case(place, text=CLAIM, settings=None, shots=()):
    """A claim folder gathered, inside a shop where settings are told."""
    if settings is not None:
        place.joinpath("shop.toml").write_text(settings, encoding="utf-8")
    a_folder(place / "claim", text, shots)
    return gather(World(folder=place, environ={}, clock=NOW), "claim", None, "")


def pages(pdf):
    return [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(pdf)).pages]
