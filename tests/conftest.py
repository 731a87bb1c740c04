"""Every check against a published source names it; what is dear to run is marked slow."""

from __future__ import annotations

import gc
import os
import re
import shutil
import tempfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

TESTS = Path(__file__).parent
PROVENANCE = {"source", "practice", "memory"}
SLOW_PLACES = (
    "agreement",
    "book/keeping/test_backups.py",
    "book/keeping/test_forgetting.py",
    "book/keeping/test_moving.py",
    "book/keeping/test_proof.py",
    "book/database/test_connections.py",
    "book/test_killed.py",
    "book/test_many_writers.py",
    "commands/auditing/",
    "commands/bench/",
    "commands/cases/",
    "commands/counter/",
    "commands/exchange/",
    "commands/folder/",
    "commands/manager/",
    "commands/manual/test_examples.py",
    "commands/money/",
    "commands/outgoing/test_signing.py",
    "commands/pictures",
    "commands/plans",
    "commands/shop/",
    "commands/talk/test_asking.py",
    "commands/test_bad_input.py",
    "commands/test_import.py",
    "commands/test_silence.py",
    "core/pricing/test_every_cent.py",
    "core/test_second_judging.py",
    "evidence/papers/test_paper_pictures.py",
    "evidence/reading/test_reading.py",
    "evidence/test_store_vault.py",
    "evidence/reading/test_tag_reader.py",
    "forms/test_filling.py",
    "packet/drawing/",
    "packet/pages",
    "packet/sealing/test_sign",
    "packet/test_drawn_pages.py",
    "packet/test_fit.py",
    "packet/test_full_pages.py",
    "packet/test_tamperings.py",
    "phone/",
    "printing/test_tables.py",
    "published/test_barcodes.py",
    "published/test_survival.py",
    "reports/",
    "tag/",
    "test_confined.py",
    "test_every_kind_of_claim.py",
    "test_main.py",
    "test_mutations.py",
    "test_readme.py",
)
"""Where whole shops are walked through, pages drawn, processes started, browsers driven, thousands of inputs tried.

What runs on a server of our own is slow too; the same is checked with SQLite.
"""


LONGEST = TESTS / "commands/shop/test_demo.py"

MEMORY, ROOM = Path("/dev/shm"), 2 * 2**30  # noqa: S108 - every test has a folder of its own there
"""Where files lie in memory, and how much of it must be free."""


def _is_roomy(place: Path) -> bool:
    """Whether files, and scripts that run, can lie in a place."""
    return (
        os.access(place, os.W_OK)
        and shutil.disk_usage(place).free > ROOM
        and not os.statvfs(place).f_flag & getattr(os, "ST_NOEXEC", 0)
    )


# Every command waits until the disk has its files for good, and tests run thousands of them.
if "TMPDIR" not in os.environ and _is_roomy(MEMORY):
    os.environ["TMPDIR"] = str(MEMORY)
    tempfile.tempdir = None

import made_once  # noqa: E402, F401 - what is made once for all processes of a run is kept by the first of them


def pytest_configure(config: pytest.Config) -> None:
    """Files are dealt to processes as they are collected, the dear ones first: those left at the end take no time."""
    if hasattr(config.option, "loadscopereorder"):
        config.option.loadscopereorder = False


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """Whoever leaves out slow tests waits for none of their files to be read."""
    is_quick = config.option.markexpr == "not slow" and collection_path.is_relative_to(TESTS)
    return True if is_quick and _is_slow_place(collection_path) else None


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Iterator[None]:
    """Thirteen thousand tests are not looked through for garbage, and what they leave is seldom."""
    gc.disable()
    collected = yield
    gc.freeze()
    gc.set_threshold(50_000, 20, 50)
    gc.enable()
    return collected


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report(collector: pytest.Collector) -> Iterator[None]:
    """Every other process reads the files from the last: what one has made ready to run, the other need not."""
    report = yield
    if isinstance(collector, pytest.Dir) and os.environ.get("PYTEST_XDIST_WORKER", "gw0")[-1] in "13579":
        report.result.reverse()
    return report


@pytest.hookimpl(wrapper=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> Iterator[None]:
    # in one order again, before anybody shuffles them
    items.sort(key=lambda item: str(item.path))
    yield
    nameless = [
        item.nodeid
        for item in items
        if "published" in item.path.parts and not PROVENANCE & {mark.name for mark in item.iter_markers()}
    ]
    if nameless:
        raise pytest.UsageError("tests in tests/published without a source:\n" + "\n".join(nameless))
    if gone := [place for place in SLOW_PLACES if not any(TESTS.glob(f"{place}*"))]:
        raise pytest.UsageError(f"slow tests that are not there: {gone}")
    for item in items:
        if _is_slow(item):
            item.add_marker("slow")
    # what takes longest alone is begun first, while the other process makes the shops that agreements are about
    items.sort(key=lambda item: (item.path != LONGEST, not _is_slow_place(item.path)))


def _is_slow(item: pytest.Item) -> bool:
    return _is_slow_place(item.path) or "server" in item.fixturenames or "server" in re.split(r"\W", item.name)


@cache
def _is_slow_place(path: Path) -> bool:
    return path.relative_to(TESTS).as_posix().startswith(SLOW_PLACES)
