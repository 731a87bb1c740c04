"""What commands answer under `--json`, asked in the invented shop: as its guides do, and what no guide asks."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from demo_shop import NOW, a_demo_shop
from running import claimpack

from claimpack.commands.catalogue import GROUPS
from claimpack.commands.found import members_of
from claimpack.commands.guide import GUIDES, ROLES

WAIT_FOR_PICTURES = ("photo receive", "photo watch")
EVERY = ["audit"] + [
    f"{each.name} {member}".strip() for _, group in GROUPS for each in group for member in members_of(each.name) or [""]
]
"""Every command by its words; the audit has others below it and is one itself."""

ASKED_BY_NO_GUIDE = """
photo shot Q-116 1 'damage close up'
photo remove Q-116 1
finding remove Q-116 1
part add Q-116 X-100 gasket --cost 4.20
part hold Q-116 X-100 --shelf Z1
part remove Q-116 1
labour remove Q-116 1
extra add Q-116 freight --amount 12.00
approval refused Q-116 --because 'bench test asked for'
hold tag Q-097/1 --out tag.pdf
audit settle household-works-hard {} --because 'the owner told how it is used'
edit Q-116
shop demo second
"""


def command_of(words: list[str]) -> str:
    """The command that some words of a line are of."""
    member = next((word for word in words[1:] if word in members_of(words[0])), "")
    return f"{words[0]} {member}".strip()


def every_answer(place: Path) -> Iterator[tuple[str, Any]]:
    """Each command asked, and what it answered as a document; each guide in a shop of its own."""
    for role in ROLES:
        shop = a_demo_shop(place / role)
        text = (GUIDES / f"{role}.md").read_text(encoding="utf-8")
        lines = [line for block in re.findall(r"```sh\n(.*?)```", text, re.DOTALL) for line in block.splitlines()]
        yield from _asked(shop, lines[2:])
    found = claimpack("audit", "--json", folder=shop, now=NOW).json["exceptions"]
    claim = next(each["claims"][0] for each in found if each["rule"] == "household-works-hard")
    lines = ASKED_BY_NO_GUIDE.format(claim).strip().splitlines()
    yield from _asked(shop, [f"claimpack {line}" for line in lines])


def _asked(shop: Path, lines: list[str]) -> Iterator[tuple[str, Any]]:
    for line in lines:
        words = shlex.split(line)[1:]
        command = command_of(words)
        if command not in WAIT_FOR_PICTURES:
            yield command, claimpack(*words, "--json", folder=shop, now=NOW, environ={"EDITOR": "true"}).json
