"""A template file looked over, whichever kind it is."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from claimpack.errors import BadInput
from claimpack.template_files import COVERAGE, PACKET, TAG, TERMS, Places, templates, with_statutes
from claimpack.toml_files import read_toml


def kind_of(keys: dict[str, Any]) -> str | None:
    """Which kind of template keys belong to, by what only that kind has; None where nothing tells."""
    if "window" in keys:
        return COVERAGE
    if "sections" in keys:
        return PACKET
    if "blocks" in keys or "block" in keys or "page" in keys:
        return TAG
    if {"answer_within", "silence", "pay_within", "labour_floor", "parts_floor", "inspect_within"} & keys.keys():
        return TERMS
    return None


def look_over(file: Path, places: Places) -> Iterator[str]:
    """Everything doubtful in a template that can be read.

    Raises:
        BadInput: it cannot be read as what it is, or nothing tells what it is.
    """
    keys = read_toml(file)
    kind = kind_of(keys)
    if kind is None:
        raise BadInput(
            f"{file} is no coverage plan, terms, layout or stock",
            "A plan has windows, terms have periods to answer or pay, a layout has sections, a stock has a page.",
        )
    yield from _LOOKS[kind](keys, file, places)


def _coverage(keys: dict[str, Any], file: Path, places: Places) -> Iterator[str]:
    from claimpack.core.keys import record_from
    from claimpack.core.lint import lint
    from claimpack.core.plan import Plan, WindowSet

    if "maker" not in keys:
        record_from(WindowSet, keys, str(file))
        return
    sets = {name: entry for name, entry in templates(COVERAGE, places).items() if entry.is_window_set}
    yield from lint(with_statutes(record_from(Plan, keys, str(file)), sets, str(file)))


def _terms(keys: dict[str, Any], file: Path, _places: Places) -> Iterator[str]:
    from claimpack.core.keys import record_from
    from claimpack.core.terms import Terms

    terms = record_from(Terms, keys, str(file))
    if not terms.cites:
        yield "cites is absent: a letter to the maker names the section"
    if terms.silence != "nothing" and terms.answer_within is None:
        yield "silence has a meaning, but answer_within does not say after how long"


def _packet(keys: dict[str, Any], file: Path, _places: Places) -> Iterator[str]:
    from claimpack.packet.layout import layout_from

    layout_from(keys, str(file))
    yield from ()


def _tag(keys: dict[str, Any], file: Path, _places: Places) -> Iterator[str]:
    from claimpack.tag.stock import stock_from

    stock_from(keys, str(file))
    yield from ()


_LOOKS = {COVERAGE: _coverage, TERMS: _terms, PACKET: _packet, TAG: _tag}
