"""Two shops whose every answer is compared: the sample claims walked through their lives, and a busy one."""

from __future__ import annotations

import csv
import datetime as dt
import io
import shutil
from functools import cached_property
from pathlib import Path
from typing import Any

from busy_shop import a_busy_shop
from made_once import made_once
from openpyxl import load_workbook
from printed import words_of
from running import NOW, Ran, claimpack

SAMPLES = Path(__file__).parents[1] / "sample_claims"
DAY = "2026-09-07"
TURNED = "26-0041"
"""The sample whose engine is named before the unit in its claim.toml."""

FILED = "file --on 2026-06-22 --anyway Sample"
RECEIVED = f"{FILED} --received 2026-06-24"
LIVES: dict[str, tuple[str, ...]] = {
    "26-0041": (RECEIVED, "answer accepted --on 2026-07-15", "pay 100.00 --on 2026-08-01"),
    "26-0063": (FILED, "answer part --amount 20.00 --on 2026-07-15 --because Half"),
    "26-0068": (FILED, "answer refused --form --on 2026-07-10 --because Form"),
    "26-0071": (RECEIVED,),
    "26-0074": (RECEIVED, "answer accepted --on 2026-07-10"),
    "26-0080": (FILED, "answer questioned --on 2026-07-10 --because Which?"),
    "26-0083": (FILED, "answer refused --on 2026-07-10 --because Wear"),
    "26-0090": (RECEIVED, "answer accepted --on 2026-07-10", "pay 200.89 --on 2026-08-01"),
}
"""What happens to each sample claim; the others stay drafts."""


def on(day: str, shop: Path, *arguments: object) -> Ran:
    """A command run in a shop on a day."""
    now = dt.datetime.combine(dt.date.fromisoformat(day), dt.time(8), NOW.tzinfo)
    return claimpack(*arguments, folder=shop, now=now)


@made_once
def the_sample_shop(place: Path) -> Path:
    """A shop under payment terms that took in every sample claim and walked it through its life."""
    claimpack("shop", "init", "shop", "--name", "Quarry Road", "--terms", "us-tx", "--currency", "USD", folder=place)
    folders = [shutil.copytree(claim, place / claim.name) for claim in sorted(SAMPLES.glob("26-*"))]
    for folder in folders:
        if folder.name.startswith(TURNED):
            turn(folder / "claim.toml")
    must(on("2026-03-01", place / "shop", "import", *folders))
    for number, steps in LIVES.items():
        for step in steps:
            command, *options = step.split()
            must(on("2026-09-01", place / "shop", command, number, *options))
    return place / "shop"


def must(ran: Ran) -> Ran:
    """A step that has to be taken."""
    if ran.code:
        raise ValueError(ran.out + ran.err)
    return ran


def turn(file: Path) -> None:
    """Name the engine before the unit."""
    text = file.read_text(encoding="utf-8")
    unit, engine = ('{role = "unit", value = "HC70-118-20417"}', '{role = "engine", value = "E70-55102"}')
    file.write_text(text.replace(unit, "UNIT").replace(engine, unit).replace("UNIT", engine), encoding="utf-8")


@made_once
def the_busy_shop(place: Path) -> Path:
    """A shop with a year of claims; its drafts are judged by the plans within reach, as the program judges them."""
    shop = a_busy_shop(place, 40)
    for claim in on(DAY, shop, "list", "--state", "draft", "--limit", 0, "--json").json["claims"]:
        must(on(DAY, shop, "set", claim["number"], "owner.phone", "555-0117"))
    return shop


class Answers:
    """Everything a shop's commands answer on the day, each asked once."""

    def __init__(self, shop: Path) -> None:
        self.shop = shop
        self._papers: dict[str, list[str]] = {}

    @cached_property
    def listed(self) -> dict[str, Any]:
        """`list`, by claim."""
        return {row["number"]: row for row in self.told("list", "--all", "--limit", 0)["claims"]}

    @cached_property
    def shown(self) -> dict[str, Any]:
        """`show`, by claim."""
        return {number: self.told("show", number) for number in self.listed}

    @cached_property
    def checked(self) -> dict[str, Any]:
        """`check`, by claim."""
        return {number: self.told("check", number) for number in self.listed}

    @cached_property
    def pending(self) -> dict[str, Any]:
        """`pending`, by claim."""
        return {row["claim"]: row for row in self.told("pending")["claims"]}

    @cached_property
    def due(self) -> list[Any]:
        """`due`, ten years ahead."""
        return self.told("due", "--within", 3650)["items"]

    @cached_property
    def held(self) -> dict[str, Any]:
        """`hold list`, by code."""
        return {row["code"]: row for row in self.told("hold", "list", "--state", "all")["parts"]}

    @cached_property
    def ledger(self) -> dict[str, dict[str, str]]:
        """`export --csv`, read by the standard library, by claim."""
        return {row["number"]: row for row in csv.DictReader(io.StringIO(self.said("export", "--csv", "-")))}

    @cached_property
    def ledger_workbook(self) -> dict[str, dict[str, Any]]:
        """`export --xlsx`, read by openpyxl, by claim."""
        self.said("export", "--xlsx", "ledger.xlsx")
        return {row["number"]: row for row in sheet(self.shop / "ledger.xlsx", "Claims")}

    @cached_property
    def reported(self) -> dict[str, list[Any]]:
        """`report --json`: the rows of every table, by its name."""
        sections = self.told("report", "--out", "report")["sections"]
        return {table["name"]: table["rows"] for section in sections for table in section["tables"]}

    def report_file(self, ending: str) -> Path:
        """A file that `report` wrote, by the end of its name."""
        _ = self.reported
        return self.shop / "report" / f"report-{DAY}{ending}"

    def papers(self, number: str) -> list[str]:
        """The tags of a claim, the tag of its first part printed again, and its packet, in words; made once."""
        if number not in self._papers:
            on(DAY, self.shop, "build", number, "--out", f"made/{number}")
            must(on(DAY, self.shop, "hold", "tag", f"{number}/1", "--out", "again.pdf"))
            made = [f"made/{number}/tag.pdf", "again.pdf", f"made/{number}/packet.pdf"]
            self._papers[number] = [self.printed(name) for name in made]
        return self._papers[number]

    def told(self, *arguments: object) -> Any:
        """What a command answers in JSON."""
        return on(DAY, self.shop, *arguments, "--json").json

    def said(self, *arguments: object) -> str:
        """What a command says."""
        return on(DAY, self.shop, *arguments).out

    def printed(self, file: str) -> str:
        """The words of a PDF that a command wrote into the shop, in one line."""
        return words_of(self.shop / file)


def sheet(file: Path, name: str) -> list[dict[str, Any]]:
    """The rows of a workbook's sheet by the names in its first row."""
    head, *rows = load_workbook(file)[name].iter_rows(values_only=True)
    return [dict(zip(head, row, strict=True)) for row in rows]
