"""`claimpack plan try`: what a plan pays, for every component and use at the ages where its own limits lie."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any, NamedTuple

from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.core.drafting.asides import CampaignTried, PartsTried
    from claimpack.core.drafting.imagined import Axes
    from claimpack.core.drafting.imagined_claims import ImaginedUnit
    from claimpack.core.drafting.trial import Paid, Trial, TrialBlock
    from claimpack.core.plans.plan import Plan
    from claimpack.template_files import Places


def try_(
    context: Context,
    plan: Annotated[str, Argument(metavar="PLAN", help="A plan's file, or the id of one within reach.")],
    age: Annotated[
        list[str] | None,
        Option("--age", metavar="PERIOD", help="Look at this age, as in P18M (repeatable)."),
    ] = None,
    hours: Annotated[
        list[str] | None,
        Option("--hours", metavar="HOURS", help="With this reading (repeatable)."),
    ] = None,
    use: Annotated[list[str] | None, Option("--use", help="Only this use (repeatable).")] = None,
    component: Annotated[list[str] | None, Option("--component", help="Only this component (repeatable).")] = None,
    sold: Annotated[str, Option("--sold", metavar="DATE", help="Sold on; default: the plan's first day.")] = "",
    sold_in: Annotated[str, Option("--sold-in", metavar="PLACE", help="Sold there, as in US-CA.")] = "",
    never_registered: Annotated[bool, Option("--never-registered", help="Not registered.")] = False,
    second_owner: Annotated[bool, Option("--second-owner", help="Sold again at once, and the maker told.")] = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Show what a plan pays: each component and use, at the ages and readings where it changes."""
    from claimpack.commands.desk.options import a_date, the_day
    from claimpack.commands.desk.say import Say
    from claimpack.core.drafting.asides import try_campaigns, try_parts
    from claimpack.core.drafting.imagined import TrialAsked, axes_of
    from claimpack.core.drafting.imagined_claims import ImaginedUnit
    from claimpack.core.drafting.trial import try_plan
    from claimpack.core.plans.uses import refuse_unknown_use

    world: World = context.obj
    found = the_plan(world, plan)
    for said in use or ():
        refuse_unknown_use(said, [found], "--use: ")
    unit = ImaginedUnit(registered=not never_registered, first_owner=not second_owner)
    asked = TrialAsked(
        ages=tuple(_period(text) for text in age or ()),
        hours=tuple(_reading(text) for text in hours or ()),
        uses=tuple(use or ()),
        components=tuple(component or ()),
        unit=unit._replace(sold_in=sold_in) if sold_in else unit,
    )
    # a plan for what is sold next year is tried on units sold then
    on = a_date(sold, "--sold") if sold else found.sold_from or the_day(world, today)
    tried = Tried(
        try_plan(found, axes_of([found], on, asked)),
        try_parts(found, on),
        tuple(try_campaigns(_with_its_campaigns(world, found, plan))),
    )
    say = Say(world)
    if json:
        say.document(as_document(tried))
    else:
        tell_trial(say, tried)
    return 0


class Tried(NamedTuple):
    """Everything of a plan that was tried."""

    trial: Trial
    parts: PartsTried | None = None
    campaigns: tuple[CampaignTried, ...] = ()


def _with_its_campaigns(world: World, plan: Plan, named: str) -> Plan:
    """The plan with the campaigns within reach that name it."""
    from claimpack.template_files import CAMPAIGNS, templates, with_campaigns

    found = templates(CAMPAIGNS, _places(world, named)).values()
    own = [entry for entry in found if entry.is_campaign and entry.keys.get("plan") == plan.id]
    return with_campaigns([plan], own)[0]


def _places(world: World, named: str) -> Places:
    from claimpack.commands.desk.gather import the_shop
    from claimpack.template_files import Places

    path = world.path(named)
    # a plan is tried with the windows of law that lie beside it
    return Places(named=(path.parent,) if path.is_file() else (), shop=the_shop(world).folder)


def the_plan(world: World, named: str) -> Plan:
    """The plan of a file or of an id within reach, with the windows of law that it takes in.

    Raises:
        NotFound: there is none.
        BadInput: it has problems.
    """
    from pathlib import Path

    from claimpack.commands.desk.named_files import read_from
    from claimpack.core.facts.keys import record_from
    from claimpack.core.plans.plan import Plan
    from claimpack.template_files import COVERAGE, template, templates, with_statutes

    path, places = read_from(world, Path(named), otherwise=".toml"), _places(world, named)
    found = template(COVERAGE, str(path) if path.is_file() else named, places)
    sets = {name: entry for name, entry in templates(COVERAGE, places).items() if entry.is_window_set}
    return with_statutes(record_from(Plan, found.keys, str(found.path)), sets, str(found.path))


def _period(text: str) -> Any:
    from claimpack.core.values.periods import period
    from claimpack.errors import BadInput

    try:
        return period(text.upper())
    except ValueError as error:
        raise BadInput(f"--age: {error}", do="Write years, months, weeks and days, as in P1Y, P18M or P90D.") from None


def _reading(text: str) -> Any:
    from claimpack.core.values.money import exact
    from claimpack.errors import BadInput

    try:
        return exact(text)
    except ValueError as error:
        raise BadInput(f"--hours: {error}") from None


def tell_trial(say: Say, tried: Tried) -> None:
    """Show a plan that was tried: a table for the unit most repairs are for, what others change, parts, campaigns."""
    from claimpack.commands.plans.trial_table import NOTHING, OPEN, legend_of, mixture_said, tables, window_said

    trial, parts = tried.trial, tried.parts
    legend, axes = legend_of(trial.plan, [*trial.blocks, *([parts.block] if parts else [])]), trial.axes
    say.answer(say.styled(f"{trial.plan.id}: what it pays", "strong"))
    say.item(" ", _first_unit(axes.units[0], axes.sold), indent=0)
    changing = {block.unit.says for block in trial.blocks[1:] if block.rows}
    # Of a limit whose passing changes something, that nothing changes up to it goes without saying.
    same = [
        says
        for says in (block.unit.says for block in trial.blocks[1:])
        if says not in changing and f"more than {says}" not in changing
    ]
    for block in trial.blocks:
        if not block.rows:
            continue
        if block.unit.says:
            say.heading(f"{block.unit.says[:1].upper()}{block.unit.says[1:]}: what changes")
        _tell_tables(say, tables(block, axes, legend, say.world.width()))
    if parts:
        say.heading(f"Parts sold on {axes.sold.isoformat()}, each with its own receipt")
        _tell_tables(say, tables(parts.block, parts.axes, legend, say.world.width()))
    for one in tried.campaigns:
        _tell_campaign(say, one)
    say.answer()
    if same:
        say.item(" ", f"Nothing changes for: {'; '.join(same)}.", indent=0)
    say.item(
        " ", f"0 is the last day of the period, -1 the day before, +1 the day after. {NOTHING} pays nothing.", indent=0
    )
    if any(paid and paid.verdict == "undecided" for block in trial.blocks for row in block.rows for paid in row.paid):
        say.item(" ", f"{OPEN} cannot be said without more facts.", indent=0)
    by_id = {window.id: window for window in trial.plan.window}
    for name, letter in legend.letters.items():
        say.item(letter, window_said(by_id[name]))
    unused = [window.id for window in trial.plan.window if window.id not in legend.letters]
    if unused:
        say.item(" ", f"Of all that is tried, nothing is paid by: {', '.join(unused)}.", indent=0)
    for shares, mark in legend.mixtures.items():
        say.item(mark, mixture_said(shares))


def _tell_tables(say: Say, found: Iterable[Sequence[str]]) -> None:
    for lines in found:
        say.answer()
        for line in lines:
            say.answer(line)


def _tell_campaign(say: Say, tried: CampaignTried) -> None:
    from claimpack.commands.plans.trial_table import NOTHING, OPEN
    from claimpack.core.values.money import plain

    campaign, operation = tried.campaign, tried.campaign.operation
    say.heading(f"Campaign {campaign.id}, {campaign.name}: serial numbers {', '.join(campaign.serials)}")
    marks = {"covered": "paid", "not covered": NOTHING, "undecided": OPEN}
    days = "  ".join(f"{day.isoformat()} {marks[verdict]}" for day, verdict in tried.days)
    say.item(" ", f"Brought in on: {days}", indent=0)
    parts = f", and parts {', '.join(campaign.parts)}" if campaign.parts else "; no part"
    work = f"{operation.name or operation.code}, {plain(operation.hours)} h{parts}"
    say.item(" ", f"It pays: {work}, in warranty or not. It pays no other serial number.", indent=0)


def _first_unit(unit: ImaginedUnit, sold: date) -> str:
    from claimpack.core.drafting.imagined_claims import SOMEWHERE
    from claimpack.core.values.money import plain

    facts = [
        f"Sold {sold.isoformat()}{'' if unit.sold_in == SOMEWHERE else f' in {unit.sold_in}'}, with a receipt",
        "registered that day" if unit.registered else "never registered",
        "first owner" if unit.first_owner else "sold again that day, and the maker told",
        *([f"model year {unit.model_year}"] if unit.model_year else []),
        *(f"{plain(reading)} {kind}" for kind, reading in unit.readings),
    ]
    return f"{', '.join(facts)}; failed, brought in and repaired on one day."


def as_document(tried: Tried) -> dict[str, Any]:
    """A plan that was tried, as scripts read it; parts and campaigns are there where the plan has any."""
    trial, parts = tried.trial, tried.parts
    document: dict[str, Any] = {
        "plan": trial.plan.id,
        "sold": trial.axes.sold.isoformat(),
        "ages": _ages(trial.axes),
        "units": [{"differs_by": block.unit.says or None, "rows": _rows(block)} for block in trial.blocks],
    }
    if parts:
        document["parts"] = {"ages": _ages(parts.axes), "rows": [{**row, "uses": []} for row in _rows(parts.block)]}
    if tried.campaigns:
        document["campaigns"] = [
            {
                "id": one.campaign.id,
                "serials": list(one.campaign.serials),
                "days": [{"day": day.isoformat(), "verdict": verdict} for day, verdict in one.days],
            }
            for one in tried.campaigns
        ]
    return document


def _ages(axes: Axes) -> list[dict[str, Any]]:
    return [
        {"day": age.day.isoformat(), "period": str(age.period) if age.period else None, "days": age.days}
        for age in axes.ages
    ]


def _rows(block: TrialBlock) -> list[dict[str, Any]]:
    return [
        {
            "components": list(row.components),
            "uses": list(row.uses),
            "paid": [paid_document(paid) for paid in row.paid],
        }
        for row in block.rows
    ]


def paid_document(paid: Paid | None) -> dict[str, Any] | None:
    """What is paid of one repair, as scripts read it; None where no unit can have run so long."""
    from claimpack.core.drafting.trial import KINDS

    if paid is None:
        return None
    shares = {kind: f"{share:.4f}" for kind, share in zip(KINDS, paid.shares, strict=True)}
    return {"verdict": paid.verdict, "windows": list(paid.windows), **shares}
