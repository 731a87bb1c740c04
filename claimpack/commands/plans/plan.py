"""`claimpack plan`: coverage plans begun, looked over and tried; terms, layouts and stocks looked over."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Any

import typer

from claimpack.commands.desk.options import Json
from claimpack.commands.plans.plan_diff import diff
from claimpack.commands.plans.plan_keys import keys
from claimpack.commands.plans.plan_start import start_plan
from claimpack.commands.plans.plan_try import try_
from claimpack.errors import BadInput
from claimpack.template_files import CAMPAIGNS, COVERAGE, FORMS, PACKET, TAG, TERMS, Places, templates, with_statutes
from claimpack.toml_files import read_toml

plan_app = typer.Typer(help="Write coverage plans, look them over, try them.", no_args_is_help=True)
"""The commands about templates."""


@plan_app.callback()
def plan() -> None:
    """Write coverage plans, look them over, try them."""


@plan_app.command("check")
def check_plans(
    context: typer.Context,
    files: Annotated[list[Path], typer.Argument(metavar="FILE…", help="Files to look over.")],
    json: Json = False,
) -> int:
    """Name everything wrong or doubtful in coverage plans, terms, layouts and stocks."""
    from claimpack.commands.desk.options import read_from
    from claimpack.commands.desk.say import Say

    world = context.obj
    say = Say(world)
    read = {str(file): read_from(world, file) for file in files}
    places = Places(named=tuple(dict.fromkeys(path.parent for path in read.values())))
    found = {file: _problems(path, places) for file, path in read.items()}
    if json:
        say.document({"files": [{"file": file, "problems": problems} for file, problems in found.items()]})
    for file, problems in found.items() if not json else ():
        say.item(say.mark("fail" if problems else "pass"), file, indent=0)
        for problem in problems:
            say.item("·", problem)
    return 3 if any(found.values()) else 0


def problems_of(file: Path) -> list[str]:
    """Everything wrong or doubtful in a template, which lies among others that it may name."""
    return _problems(file, Places(named=(file.parent,)))


def _problems(file: Path, places: Places) -> list[str]:
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
    if "file" in keys and {"fields", "rows"} & keys.keys():
        return FORMS
    if {"closes", "operation", "serials"} <= keys.keys():
        return CAMPAIGNS
    if {"window", "repair_time_extends"} & keys.keys():
        return COVERAGE
    if "sections" in keys:
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


def _packet(keys: dict[str, Any], file: Path, _places: Places) -> Iterator[str]:
    from claimpack.packet.drawing.layout import layout_from

    layout_from(keys, str(file))
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


@plan_app.command("list")
def list_templates(context: typer.Context, json: Json = False) -> int:
    """List the plans, terms, layouts and stocks within reach, and where each lies."""
    from claimpack.commands.desk.gather import the_shop
    from claimpack.commands.desk.say import Say
    from claimpack.template_files import KINDS

    places = Places(shop=the_shop(context.obj).folder)
    found = {kind: templates(kind, places) for kind in KINDS}
    say = Say(context.obj)
    if json:
        say.document({kind: {name: str(entry.path) for name, entry in by_id.items()} for kind, by_id in found.items()})
        return 0
    for kind, by_id in found.items():
        say.heading(kind)
        say.table([(name, str(entry.keys.get("name", ""))) for name, entry in sorted(by_id.items())])
    return 0


plan_app.command("keys")(keys)
plan_app.command("try")(try_)
plan_app.command("start")(start_plan)
plan_app.command("diff")(diff)
