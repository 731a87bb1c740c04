"""A shop with a book of any size: an honest shop's claims, and copies of them in the database itself.

Copies are other units, owners, technicians, papers and pictures, in the years before; of those only what is settled is
copied. They are the rows a book would have, but for the hashes of the history, which name what was copied. Run by hand:
python tests/bench/large_shop.py shop 100000
"""

from __future__ import annotations

import datetime as dt
import json
import random
import sqlite3
import string
import subprocess
import sys
from contextlib import closing
from decimal import Decimal
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from by_hand import Given, arguments
from planted_cases import an_honest_shop
from planted_shop import TODAY, Case

from claimpack.book.opening import open_book
from claimpack.book.tables import finder
from claimpack.book.tables.entries import Author, Entry
from claimpack.book.tables.rows import KeptFile
from claimpack.core.claims.claim import Claim
from claimpack.core.events.events import NewEvent
from claimpack.core.events.standing import Standing
from claimpack.core.judging.assessment import assess
from claimpack.core.judging.claim_summary import summary_of
from claimpack.template_files import Places, mark_of_plans, read_plans

SHOP, YEARS, TOKEN = 2_000, 18, "aaaaaa"
"""Claims of the shop that is copied, years before it that copies lie in, and what its names have and others do not."""

WRITER = Author("bench", dt.datetime(2026, 3, 1, 9, 0, tzinfo=dt.UTC))
SETTLED = "state IN ('paid', 'written off') AND number IN (SELECT claim FROM held WHERE state = 'scrapped')"


def large_shop(home: Path, count: int) -> Path:
    """Make a shop with so many claims in its book, to be asked about on TODAY."""
    program = [sys.executable, "-m", "claimpack", "shop", "init", str(home), "--terms", "us-sc", "--currency", "USD"]
    subprocess.run(program, check=True, capture_output=True)
    for plan in (Path(__file__).parents[2] / "templates" / "coverage").glob("*.toml"):
        # serial numbers of copies have letters behind them, which no maker's form has
        lines = plan.read_text().splitlines(keepends=True)
        (home / "coverage" / plan.name).write_text("".join(x for x in lines if not x.startswith("serial_patterns")))
    book, mark = open_book(str(home / "book.sqlite")), mark_of_plans(Places(shop=home))
    chance = random.Random(7)
    with book.change_all([], WRITER, [_put(case, chance, mark) for case in an_honest_shop(1, min(count, SHOP)).cases]):
        pass
    book.engine.dispose()
    if count > SHOP:
        with closing(sqlite3.connect(home / "book.sqlite", isolation_level=None)) as driver:
            _multiply(driver, count, chance)
    with book.engine.transaction() as connection:
        finder.make(connection)
    book.engine.dispose()
    return home


def _put(case: Case, chance: random.Random, mark: str) -> tuple[Entry, tuple[NewEvent, ...]]:
    """A case as it goes into the book, with its life; every name in it has the token."""
    keys = json.loads(json.dumps(case.keys))
    keys["number"] = f"{TOKEN}-{case.number}"
    keys["owner"] |= {
        key: f"{keys['owner'][key]} {TOKEN}" for key in ("name", "phone", "address") if key in keys["owner"]
    }
    for named in (*keys["unit"]["serials"], *keys.get("earlier", ()), *keys["labour"]):
        for key in {"value", "technician"} & set(named):
            named[key] += f" {TOKEN}"
        if "claim" in named:
            named["claim"] = f"{TOKEN}-{named['claim']}"
    keys["failure"]["complaint"] += f" {TOKEN}"
    if "approval" in keys:
        keys["approval"]["number"] += TOKEN
    claim = Claim.model_validate(keys)
    summary = summary_of(assess(claim, PLANS, TODAY), mark)
    files = [KeptFile(path, f"{chance.getrandbits(256):064x}", 90_000) for path in case.papers]
    for path in case.pictures:
        look = f"{chance.getrandbits(1280):0320x}"
        files.append(KeptFile(path, f"{chance.getrandbits(256):064x}", 300_000, case.taken.get(path), look))
    return Entry(claim, 0, Standing(), summary, tuple(files)), tuple(_life(case, summary.claimed))


PLANS = read_plans(Places())


def _life(case: Case, claimed: Decimal) -> list[NewEvent]:
    """What happened to it: what was refused is given up after a while, and no part of a settled claim stays held."""
    happened = [NewEvent(what="opened", on=case.opened)]
    if case.filed is None:
        return happened
    facts = {"claimed": str(claimed), "currency": "USD", "revision": "1", "received": str(case.filed)}
    happened.append(NewEvent(what="filed", on=case.filed, facts=facts))
    later = [(on, NewEvent(what="answered", on=on, why=why, facts={"answer": said})) for on, said, why in case.answers]
    given_up = [on + dt.timedelta(days=40) for on, _, _ in case.answers]
    given_up += [on + dt.timedelta(days=30) for on, share in case.paid if share != 1]
    for on, share in case.paid:
        amount = (claimed * share).quantize(Decimal("0.01"))
        later.append((on, NewEvent(what="paid", on=on, facts={"amount": str(amount)})))
    later += [(on, NewEvent(what="written off", on=on, why="Not worth a letter.")) for on in given_up if on < TODAY]
    gone = case.filed + dt.timedelta(days=150)
    if (case.paid or given_up) and gone < TODAY:
        for what, fact in (("part released", {"rule": "the hold ran out"}), ("part scrapped", {})):
            later.append((gone, NewEvent(what=what, on=gone, facts={"part": "1", **fact})))
    return happened + [event for _, event in sorted(later, key=lambda each: each[0])]


def _multiply(driver: sqlite3.Connection, count: int, chance: random.Random) -> None:
    """Copy the claims that are there until there are so many."""
    for setting in ("journal_mode = OFF", "synchronous = OFF", "cache_size = -400000"):
        driver.execute(f"PRAGMA {setting}")
    indexes = driver.execute("SELECT name, sql FROM sqlite_master WHERE type = 'index' AND sql IS NOT NULL").fetchall()
    for name, _ in indexes:
        driver.execute(f"DROP INDEX {name}")
    driver.execute(f"CREATE TEMP TABLE settled AS SELECT number FROM claims WHERE {SETTLED}")  # noqa: S608
    for table in ("claims", "revisions", "serials", "held", "kept_files", "events"):
        driver.execute(f"CREATE TEMP TABLE first_{table} AS SELECT * FROM {table}")  # noqa: S608
    settled, length = (driver.execute(f"SELECT count(*) FROM {table}").fetchone()[0] for table in ("settled", "events"))  # noqa: S608
    # names in order, so that a book lies in the order of its numbers, as it does where they count up
    tokens = sorted("b" + "".join(chance.choices(string.ascii_lowercase, k=5)) for _ in range(1 + count // settled))
    there = SHOP
    for place, token in enumerate(tokens, start=1):
        if there < count:
            there += _copied(driver, token, place % YEARS, place * length, count - there)
    driver.execute("UPDATE chain SET length = (SELECT max(position) FROM events)")
    for _, made in indexes:
        driver.execute(made)
    driver.execute("PRAGMA journal_mode = WAL")


def _copied(driver: sqlite3.Connection, token: str, years: int, further: int, most: int) -> int:
    """One copy so many years before; returns how many claims it has."""

    def other(column: str) -> str:
        said = f"replace({column}, '{TOKEN}', '{token}')"
        for year in (2024, 2025, 2026) if years else ():
            said = f"replace({said}, '{year}-', '{year - years}-')"
        return said

    made: dict[str, Any] = {
        "position": f"position + {further}",
        "sha256": "lower(hex(randomblob(32)))",
        "likeness": "CASE WHEN likeness IS NULL THEN NULL ELSE lower(hex(randomblob(160))) END",
    }
    whose = "SELECT number FROM settled" if years else "SELECT number FROM first_claims"
    # of the last copy only as many as are still wanted
    whose = f"SELECT number FROM ({whose}) ORDER BY number LIMIT {most}"  # noqa: S608
    for table in ("claims", "revisions", "serials", "held", "kept_files", "events"):
        columns = [row[1] for row in driver.execute(f"PRAGMA table_info({table})") if row]
        values = ", ".join(made.get(column) or other(column) for column in columns)
        key = "number" if table == "claims" else "claim"
        driver.execute(f"INSERT INTO {table} SELECT {values} FROM first_{table} WHERE {key} IN ({whose})")  # noqa: S608
    return int(driver.execute(f"SELECT count(*) FROM ({whose})").fetchone()[0])  # noqa: S608


if __name__ == "__main__":
    SAID = arguments(__doc__, Given("folder", Path, "where the shop is made"), Given("claims", int, "how many it has"))
    large_shop(SAID.folder, SAID.claims)
