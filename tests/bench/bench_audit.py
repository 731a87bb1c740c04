"""The audit over 1,000, 10,000 and 100,000 claims: the rules alone, and the whole command on a filled book.

Time may grow no faster than n log n: the ratio printed is the time beside that of a tenth of the claims, over what
n log n gives. Seconds are the processor's, which other work on the machine does not count into.
Run by hand: python tests/bench/bench_audit.py [MOST_CLAIMS]
"""

from __future__ import annotations

import datetime as dt
import gc
import itertools
import math
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from book_builders import an_entry
from by_hand import Given, arguments
from running import claimpack

from claimpack.book.opening import open_book
from claimpack.book.tables.entries import Author, Entry
from claimpack.book.tables.rows import KeptFile
from claimpack.core.auditing.audited import AuditedClaim, Measures
from claimpack.core.auditing.report.audit import audit, chosen_rules
from claimpack.core.events.events import NewEvent
from claimpack.core.events.fold import stand
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.core.plans.plan import Plan
from claimpack.core.steps.filing import FilingCourse
from claimpack.template_files import Places, read_plans, read_terms

SIZES = (1_000, 10_000, 100_000)
BATCH = 5_000
TODAY = dt.date(2026, 3, 1)
HAPPENED = (
    NewEvent(what="imported", on=TODAY),
    NewEvent(what="filed", on=TODAY, facts={"claimed": "159.70", "currency": "USD", "revision": "1"}),
)
SUMMARY = ClaimSummary(plan="halden-2025", verdict="covered", currency="USD", claimed="159.70")
SHOTS = ("serial plate", "whole unit", "failed part", "damage", "old and new part")


def keys(index: int) -> dict[str, Any]:
    """What is different in one claim of many; of a thousand, five are about a unit that was here before."""
    day = dt.date(2026, 2, 1) + dt.timedelta(days=index % 20)
    at = dt.datetime.combine(day, dt.time(8 + 2 * (index // 20 % 5) - (index % 500 == 20)))
    unit = f"{index - 20 if index % 200 == 27 else index:08}"
    serials = {"unit": f"HC70-{unit[:3]}-{unit[3:]}", "engine": f"E{unit[1:3]}-{unit[3:]}"}
    return {
        "unit__serials": [{"role": role, "value": value} for role, value in serials.items()],
        "dates": {
            "purchased": "2025-12-15",
            "failed": day.isoformat(),
            "presented": day.isoformat(),
            "repaired": day.isoformat(),
        },
        "approval": {"number": f"A-{index}", "on": day.isoformat()},
        "parts": [{"number": f"P-{index % 311}", "name": "Short block", "unit_cost": "96.20"}],
        "labour": [
            {
                "operation": "short-block-replace",
                "started": at.isoformat(),
                "ended": (at + dt.timedelta(minutes=90)).isoformat(),
                "technician": f"Technician {index // 100}",
            }
        ],
        "photos": [{"file": f"photos/{place}.jpg", "shot": shot} for place, shot in enumerate(SHOTS)],
        "held": [{"part": "short block", "number": "P-1", "serial": f"S{index}", "since": day.isoformat()}],
    }


def entries(count: int) -> Iterator[Entry]:
    """So many claims with a receipt and five pictures each; one in two hundred shows a picture of another."""
    draw = random.Random(1)
    taken = dt.datetime(2026, 2, 21, 9, 0)  # noqa: DTZ001  cameras know no zone
    for index in range(count):
        first = f"{index // 400:064x}" if index % 200 == 9 else f"f{index:063x}"
        hashes = [first, *(f"{place}{index:063x}" for place in range(1, 5))]
        files = [
            KeptFile(f"photos/{place}.jpg", sha256, 300_000, taken, f"{draw.getrandbits(64):016x}")
            for place, sha256 in enumerate(hashes)
        ]
        receipt = KeptFile("papers/receipt.pdf", f"e{index:063x}", 90_000)
        yield an_entry(f"25-{index:06}", *files, receipt, summary=SUMMARY, **keys(index))


def audited(entry: Entry, plan: Plan, terms: Any) -> AuditedClaim:
    """An entry as the audit looks at it."""
    standing = stand(HAPPENED)
    return AuditedClaim(entry.claim, standing, SUMMARY, plan, terms, files=entry.files, course=FilingCourse(TODAY))


def rules_alone(claims: list[AuditedClaim]) -> float:
    """Processor seconds that the rules take over claims in memory."""
    begun = time.process_time()
    report = audit(claims, Measures(TODAY), chosen_rules())
    taken = time.process_time() - begun
    print(f"  {len(claims):7} claims, {len(report.found):7} exceptions, rules {taken:7.2f} s")
    return taken


def filled(folder: Path, count: int) -> Path:
    """A shop with so many claims in its book."""
    claimpack("shop", "init", f"shop-{count}", "--terms", "us-sd-outdoor-power", folder=folder)
    shop = folder / f"shop-{count}"
    book = open_book(str(shop / "book.sqlite"))
    waiting = entries(count)
    while batch := list(itertools.islice(waiting, BATCH)):
        book.add(batch, Author("bench", dt.datetime(2026, 3, 1, 9, 0, tzinfo=dt.UTC)), *HAPPENED)
    book.engine.dispose()
    return shop


MEASURED = """
import resource, subprocess, sys
subprocess.run([sys.executable, "-m", "claimpack", "audit", "--json"], check=False, capture_output=True)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(used.ru_utime + used.ru_stime, used.ru_maxrss // 1024)
"""


def whole_command(shop: Path) -> tuple[float, int]:
    """Processor seconds and most megabytes of the whole command, in a process of its own."""
    ran = subprocess.run([sys.executable, "-c", MEASURED], cwd=shop, check=True, capture_output=True, text=True)
    seconds, megabytes = ran.stdout.split()
    return float(seconds), int(megabytes)


def against_n_log_n(times: dict[int, float]) -> None:
    """Print each time over that of the size before, beside what n log n gives."""
    for fewer, more in itertools.pairwise(times):
        expected = more * math.log(more) / (fewer * math.log(fewer))
        grown = times[more] / times[fewer]
        print(f"  {fewer} to {more}: {grown:.1f} times as long, n log n gives {expected:.1f}: {grown / expected:.2f}")


def main() -> None:
    """Time the rules, then the command; print how either grows."""
    said = arguments(__doc__, Given("most_claims", SIZES[-1], "how many claims the largest book has"))
    sizes = [size for size in SIZES if size <= said.most_claims]
    plan = next(plan for plan in read_plans(Places()) if plan.id == "halden-2025")
    terms = read_terms("us-sd-outdoor-power", Places())
    claims = [audited(entry, plan, terms) for entry in entries(sizes[-1])]
    # The claims lie in memory for the bench alone: looking through them for garbage is no work of the audit's.
    gc.freeze()
    rules = {}
    for size in sizes:
        rules[size] = rules_alone(claims[:size])
    against_n_log_n(rules)
    claims.clear()
    commands = {}
    with tempfile.TemporaryDirectory() as folder:
        for size in sizes:
            commands[size], most = whole_command(filled(Path(folder), size))
            print(f"  {size:7} claims, whole command {commands[size]:7.2f} s, at most {most:,} MB")
    against_n_log_n(commands)


if __name__ == "__main__":
    main()
