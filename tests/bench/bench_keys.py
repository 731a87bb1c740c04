"""Keys that somebody presses for a short block, from the unit taken in to the claim paid, Enter counted as one.

    python tests/bench/bench_keys.py            the keys of every command and answer, and all of them

The walk is that of the README, in a shop that writes the month first and has its maker's parts list. Every command is
run, and the claim must be paid at the end; nothing is counted that was not typed.
"""

from __future__ import annotations

import shlex
import shutil
import sys
import tempfile
from pathlib import Path

TESTS = Path(__file__).parents[1]
sys.path.insert(0, str(TESTS))

from by_hand import arguments  # noqa: E402  the folder of the tests is on the path from here on
from running import claimpack  # noqa: E402

SAMPLE = TESTS.parent / "sample_claims" / "26-0041-short-block"
PARTS = """number,name,cost,list price
70-1180-00,Short block CS-70,412.60,515.75
70-1183-04,Gasket set,21.35,28.50
70-2210-01,Air filter,9.20,18.40
"""
MOST = 750

OPENING = """Lost power in a cut, will not start
1
CS-70
HC70-118-20417
cut-off saw
E70-55102
p
112.4
3/14/25

1
3/20/25
y
555-0114
Marrow Lane Paving
2/2
{short block}
"""
FINISHING = """Piston ground too large, seized on the exhaust side
New short block, ran in, 138 psi
2
70-1180-00 sent
70-1183-04 sent
70-2210-01 owner

{short-block-replace} 1.8
{engine-diagnose} 0.5

B3
y

"""
WALK: tuple[tuple[str, str, str], ...] = (
    ("2026-02-05", "open", OPENING),
    ("2026-02-05", "paper add receipt.pdf --proof receipt", ""),
    ("2026-02-09", "finding add compression 42 psi --low 110 --high 150", ""),
    ("2026-02-09", "photo add --shots dcim/*", ""),
    ("2026-02-10", "approval given --number HA-26-1187 --amount 450", ""),
    ("2026-02-24", "finish", FINISHING),
    ("2026-02-24", "tag", ""),
    ("2026-02-26", "check", ""),
    ("2026-02-26", "file --ref HX-5531", ""),
    ("2026-02-27", "received", ""),
    ("2026-03-20", "answer accepted", ""),
    ("2026-04-02", "pay {all}", ""),
)
"""The day of each command, the command, and what is typed into it."""


def main() -> None:
    """Walk, and print the keys."""
    with tempfile.TemporaryDirectory() as place:
        shop = _shop(Path(place))
        keys = sum(_walked(shop, *step) for step in WALK)
        state = claimpack("show", "--json", folder=shop).json["standing"]["state"]
    answers = sum(typed.count("\n") for _, _, typed in WALK)
    print(f"{keys:5}  keys in all, {len(WALK)} commands and {answers} answers; the claim is {state}")
    if state != "paid" or keys > MOST:
        sys.exit(f"want: paid, and at most {MOST} keys")


def _shop(place: Path) -> Path:
    claimpack("shop", "init", "shop", "--currency", "USD", folder=place)
    shop = place / "shop"
    settings = shop / "shop.toml"
    settings.write_text(settings.read_text().replace("format = 1", 'format = 1\ndates = "month-first"'))
    (shop / "parts").mkdir()
    (shop / "parts" / "halden.csv").write_text(PARTS)
    (shop / "dcim").mkdir()
    for number, name in enumerate(("plate", "whole", "failed-part"), start=1):
        shutil.copy(SAMPLE / "photos" / f"{name}.jpg", shop / "dcim" / f"IMG_{number}.jpg")
    shutil.copy(SAMPLE / "papers" / "receipt.pdf", shop / "receipt.pdf")
    return shop


def _walked(shop: Path, day: str, command: str, typed: str) -> int:
    """The keys of one command with its answers, once it was done."""
    command, typed = (_filled(shop, day, text) for text in (command, typed))
    words = [each for word in shlex.split(command) for each in _globbed(shop, word)]
    ran = claimpack(*words, "--today", day, folder=shop, typed=typed) if _has_day(words) else None
    ran = ran or claimpack(*words, folder=shop, typed=typed)
    keys = len(f"claimpack {command}\n") + len(typed)
    print(f"{keys:5}  {command}" + (f", {typed.count(chr(10))} answers" if typed else ""))
    if ran.code not in (0, 4) or (ran.code == 4 and command != "check"):
        sys.exit(f"{command}: {ran.out}{ran.err}")
    return keys


def _has_day(words: list[str]) -> bool:
    """Whether a command goes by the day, which the walk then sets; nobody types it."""
    return words[0] not in ("paper", "finding", "photo")


def _globbed(shop: Path, word: str) -> list[str]:
    return sorted(str(path) for path in shop.glob(word)) if "*" in word else [word]


def _filled(shop: Path, day: str, text: str) -> str:
    """Text with the numbers that the screen shows for a choice, and the amount that is outstanding."""
    if "{all}" in text:
        return text.replace("{all}", claimpack("show", "--json", folder=shop).json["standing"]["outstanding"])
    if "{" not in text:
        return text
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.world import World
    from claimpack.core.plans.component_words import components_offered

    plan = Desk(World(folder=shop, environ={}), day).plans
    halden = next(each for each in plan if each.id == "halden-2025")
    offered = list(components_offered(halden))
    codes = [each.code for each in halden.operation]
    for numbered in (offered, codes):
        for place, choice in enumerate(numbered, start=1):
            text = text.replace(f"{{{choice}}}", str(place))
    return text


if __name__ == "__main__":
    arguments(__doc__)
    main()
