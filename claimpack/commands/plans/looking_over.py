"""A template looked over: which kind it is, and everything wrong or doubtful in it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from claimpack.errors import BadInput
from claimpack.folder.toml_files import read_toml
from claimpack.template_files import (
    CAMPAIGNS,
    COVERAGE,
    FORMS,
    PACKET,
    TAG,
    TERMS,
    Places,
    templates,
    whole_layout,
    with_statutes,
)


def problems_of(file: Path) -> list[str]:
    """Everything wrong or doubtful in a template, which lies among others that it may name."""
    return problems_among(file, Places(named=(file.parent,)))


def problems_among(file: Path, places: Places) -> list[str]:
    """Everything wrong or doubtful in a template, with others found in these places."""
    try:
        return list(look_over(file, places))
    except BadInput as wrong:
        return [
            *(line.strip() for line in (wrong.problems or (wrong.what.removeprefix(f"{file}: "),))),
            *([wrong.why] if wrong.why else []),
        ]


def look_over(file: Path, places: Places) -> Iterator[str]:
    """Everything doubtful in a template that can be read.

    Raises:
        BadInput: it cannot be read as what it is, or nothing tells what it is.
    """
    keys = read_toml(file)
    kind = kind_of(keys)
    if kind is None:
        raise BadInput(
            f"{file} is no coverage plan, terms, layout, stock or form",
            "A plan has windows, terms periods to answer in, a layout sections, a stock a page, a form file, fields.",
        )
    yield from _LOOKS[kind](keys, file, places)


def kind_of(keys: dict[str, Any]) -> str | None:
    """Which kind of template keys belong to, by what only that kind has; None where nothing tells."""
    # by keys and not by the folder it lies in: a file is looked over before it is put there
    if "file" in keys and {"fields", "rows"} & keys.keys():
        return FORMS
    if {"closes", "operation", "serials"} <= keys.keys():
        return CAMPAIGNS
    if {"window", "repair_time_extends"} & keys.keys():
        return COVERAGE
    if {"sections", "like"} & keys.keys():
        return PACKET
    if "blocks" in keys or "block" in keys or "page" in keys:
        return TAG
    if {"answer_within", "silence", "pay_within", "labour_floor", "parts_floor", "inspect_within"} & keys.keys():
        return TERMS
    return None


def _coverage(keys: dict[str, Any], file: Path, places: Places) -> Iterator[str]:
    from claimpack.core.facts.keys import record_from
    from claimpack.core.plans.lint import lint
    from claimpack.core.plans.plan import Plan, WindowSet

    # windows of a law are of no maker
    if "maker" not in keys:
        record_from(WindowSet, keys, str(file))
        return
    sets = {name: entry for name, entry in templates(COVERAGE, places).items() if entry.is_window_set}
    yield from lint(with_statutes(record_from(Plan, keys, str(file)), sets, str(file)))


def _terms(keys: dict[str, Any], file: Path, _places: Places) -> Iterator[str]:
    from claimpack.core.facts.keys import record_from
    from claimpack.core.plans.terms import Terms

    terms = record_from(Terms, keys, str(file))
    if not terms.cites:
        yield "cites is absent: a letter to the maker names the section"
    if terms.silence != "nothing" and terms.answer_within is None:
        yield "silence has a meaning, but answer_within does not say after how long"


def _packet(keys: dict[str, Any], file: Path, places: Places) -> Iterator[str]:
    from claimpack.packet.drawing.layout import layout_from

    layout_from(whole_layout(keys, places, str(file)), str(file))
    yield from ()


def _tag(keys: dict[str, Any], file: Path, _places: Places) -> Iterator[str]:
    from claimpack.tag.stock import stock_from

    stock_from(keys, str(file))
    yield from ()


def _form(keys: dict[str, Any], file: Path, _places: Places) -> Iterator[str]:
    from claimpack.evidence.originals import read_original
    from claimpack.file_contents import read_bytes
    from claimpack.forms.fields import fields_of
    from claimpack.forms.lint import lint
    from claimpack.forms.mapping import form_from

    form = form_from(keys, str(file))
    content = read_bytes(read_original(file.parent, form.file))
    yield from lint(form, fields_of(content, form.file))


def _campaign(keys: dict[str, Any], file: Path, places: Places) -> Iterator[str]:
    from claimpack.core.facts.keys import record_from
    from claimpack.core.plans.campaign import Campaign
    from claimpack.core.values.words import did_you_mean

    campaign, plans = record_from(Campaign, keys, str(file)), templates(COVERAGE, places)
    if campaign.plan not in plans:
        yield f"key plan: {campaign.plan!r} is not there. {did_you_mean(campaign.plan, plans)}".strip()
    if not campaign.cites:
        yield "cites is absent: the maker is told where it says so"


_LOOKS = {COVERAGE: _coverage, TERMS: _terms, PACKET: _packet, TAG: _tag, FORMS: _form, CAMPAIGNS: _campaign}
