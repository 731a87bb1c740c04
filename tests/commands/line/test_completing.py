from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import pytest

from claimpack.commands.line.completing import Offer, offers
from claimpack.commands.line.declared import Argument, Family, Option


class Colour(StrEnum):
    RED = "red"
    BLUE = "blue"


def paint(
    claim: Annotated[str, Argument(metavar="CLAIM")],
    shelf: Annotated[str, Argument(metavar="[SHELF]")] = "",
    maker: Annotated[str, Option("--maker", help="Whose.")] = "",
    colour: Annotated[Colour, Option("--colour")] = Colour.RED,
    yes: Annotated[bool, Option("--yes", help="Do not ask.")] = False,
    tone: Annotated[str, Option("--tone", metavar="KIND")] = "",
) -> int:
    """Paint a wall."""
    return 0


WALLS = Family(help="Walls.")
WALLS.command("paint")(paint)
COMMANDS = {"paint": "Paint a wall.", "pack": "Pack.", "walls": "Walls."}
WORDS = {"claims": ["26-0001", "26-0002"], "makers": ["halden", "Hal & Sons"], "shelves": ["A1", "B2"]}


def offered(line):
    *words, begun = line.split(" ")
    found = {"paint": paint, "walls": WALLS}.__getitem__
    return offers(words, begun, COMMANDS, found, lambda kind, _: WORDS[kind], [Offer("--shop", "In this shop.")])


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("pa", ["paint", "pack"]),
        ("walls ", ["paint"]),
        ("walls paint 26-0002", ["26-0002"]),
        ("paint ", ["26-0001", "26-0002"]),
        ("paint 26-0001 ", ["A1", "B2"]),
        ("paint --yes 26-0001 b", ["B2"]),
        ("paint --maker halden ", ["26-0001", "26-0002"]),
        ("paint 26-0001 A1 ", ["--maker", "--colour", "--yes", "--tone", "--help"]),
        ("paint 26-0001 A1 x", []),
        ("--v", ["--version"]),
        ("--sh", ["--shop"]),
        ("paint --sh", ["--shop"]),
        ("paint --maker HAL", ["halden", "Hal & Sons"]),
        ("paint --colour ", ["red", "blue"]),
        ("paint --tone ", []),
        ("paint --c", ["--colour"]),
        ("walls nothing ", []),
        ("nothing ", []),
    ],
)
def test_what_may_come_next_is_offered(line, words):
    assert [offer.word for offer in offered(line)] == words


def test_commands_and_options_are_offered_with_what_they_mean():
    assert (offered("pack"), offered("walls p")) == ([Offer("pack", "Pack.")], [Offer("paint", "Paint a wall.")])
    assert Offer("--yes", "Do not ask.") in offered("paint --")
