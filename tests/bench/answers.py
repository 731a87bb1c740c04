"""Every JSON answer of the program over the samples and a busy shop, one file each, to compare two checkouts.

`python tests/bench/answers.py BEFORE` in one checkout, `python tests/bench/answers.py AFTER` in the other, then
`python tests/bench/answers.py BEFORE AFTER`: every answer that differs is named with the keys that do.
"""

from __future__ import annotations

import json
import os
import re
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve()
sys.path.insert(0, str(HERE.parent.parent))

from by_hand import Given, arguments  # noqa: E402  the folder of the tests is on the path from here on

SAMPLES = sorted(path for path in (HERE.parents[2] / "sample_claims").iterdir() if (path / "claim.toml").exists())
TODAY = "2026-09-07"
COUNTER = (
    "--maker halden --model CS-70 --component",
    "--maker halden --model HT-20 --component",
    "--maker orrin-vale --model RM-42 --component",
    "--maker tessaly --model PW-26 --component",
)
OF_A_CLAIM = ("check", "show", "history", "labour list", "part list", "finding list", "photo list", "paper list")
OF_A_SHOP = (
    "list --all",
    "list",
    "pending",
    "pending --over 60",
    "due --within 60",
    "hold list",
    "audit",
    "plan list",
    "find CS-70",
    "find Ashby",
    "labour running",
)


NEVER_THE_SAME = {"salt", "document", "previous", "hash"}
"""Keys of an event that hang on a random salt."""
DATED = ("list", "pending", "due", "audit", "hold")


def commands() -> Iterator[str]:
    """Every command line that is asked, with `SHOP` where it is asked in the shop."""
    for path in SAMPLES:
        yield f"check {path} --today 2026-06-20"
    for unit in COUNTER:
        for component in ("'ignition coil'", "'short block'", "engine", "seal", "battery"):
            for bought in ("2024-12-01", "2025-03-14", "2026-01-05"):
                yield f"cover {unit} {component} --use household --purchased {bought} --no-meter --today 2026-06-20"
    for asked in OF_A_SHOP:
        yield f"SHOP {asked} --today {TODAY}" if asked.split()[0] in DATED else f"SHOP {asked}"


def written(folder: Path) -> None:
    """Ask everything, and write each answer under the command that gave it."""
    import shlex

    from busy_shop import a_busy_shop
    from running import claimpack

    folder.mkdir(parents=True)
    with tempfile.TemporaryDirectory() as made:
        shop = a_busy_shop(Path(made), 120)
        for path in SAMPLES:
            claimpack("import", path, "--today", "2026-06-20", folder=shop)
        numbers = [claim["number"] for claim in claimpack("list", "--all", "--json", folder=shop).json["claims"]]
        of_claims = [f"SHOP {asked} {number}" for number in numbers for asked in OF_A_CLAIM]
        of_claims += [f"SHOP chase {number} --today {TODAY}" for number in numbers]
        for line in [*commands(), *of_claims]:
            asked = line.removeprefix("SHOP ")
            ran = claimpack(*shlex.split(asked), "--json", folder=shop if line.startswith("SHOP") else HERE.parents[2])
            name = re.sub(r"[^A-Za-z0-9.]+", "-", asked.replace(str(HERE.parents[2]), "")).strip("-")
            text = ran.out.replace(str(HERE.parents[2]), "").replace(made, "")
            (folder / f"{name}.json").write_text(json.dumps({"exit": ran.code, "answer": _read(text)}, indent=1))


def _read(text: str) -> Any:
    try:
        return json.loads(text)
    except ValueError:
        return text


def different(before: Path, after: Path) -> Iterator[str]:
    """Every answer that is not the same, with the first keys that differ."""

    def answer(place: Path, name: str) -> Any:
        return json.loads((place / name).read_text()) if (place / name).exists() else None

    for name in sorted({path.name for path in before.iterdir()} | {path.name for path in after.iterdir()}):
        one, other = answer(before, name), answer(after, name)
        if keys := list(_keys(one, other, "")):
            yield f"{name}: {'; '.join(keys[:6])}" + (f"; and {len(keys) - 6} more" if len(keys) > 6 else "")


def _keys(one: Any, other: Any, at: str) -> Iterator[str]:
    if isinstance(one, dict) and isinstance(other, dict):
        for key in sorted({*one, *other} - NEVER_THE_SAME):
            yield from _keys(one.get(key), other.get(key), f"{at}.{key}" if at else key)
    elif isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        for index, (mine, theirs) in enumerate(zip(one, other, strict=True)):
            yield from _keys(mine, theirs, f"{at}[{index}]")
    elif one != other:
        yield f"{at}: {json.dumps(one)[:60]} -> {json.dumps(other)[:60]}"


def main() -> None:
    """Write the answers into one folder, or compare two."""
    told = arguments(
        __doc__,
        Given("before", Path, "the folder to write, or that of the first checkout"),
        Given("after", None, "that of the second; without it the first is written"),
    )
    if told.after is None:
        written(told.before)
        print(f"{len(list(told.before.iterdir()))} answers in {told.before}")
        return
    rows = list(different(told.before, Path(told.after)))
    print("\n".join(rows))
    print(f"{len(list(told.before.iterdir()))} answers compared, {len(rows)} differ")


if __name__ == "__main__":
    os.environ.setdefault("TZ", "UTC")
    main()
