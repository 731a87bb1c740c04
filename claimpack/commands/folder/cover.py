"""`claimpack cover`: the counter's quick answer, from options alone."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import (
    OPTION_OF,
    Delivered,
    Failed,
    Invoiced,
    Json,
    MeterReading,
    ModelYear,
    NeverRegistered,
    NoMeter,
    OtherMeters,
    Plans,
    Presented,
    Purchased,
    Registered,
    Resold,
    SoldIn,
    Today,
    Transferred,
    Use,
)
from claimpack.commands.line.declared import Context, Option

if TYPE_CHECKING:
    from claimpack.core.claims.claim import Claim


_NAMED = {
    **OPTION_OF,
    "unit.built": "--built",
    "dates.in_service": "--in-service",
}


def cover(
    context: Context,
    maker: Annotated[str, Option(help="The maker.")],
    model: Annotated[str, Option(help="The model.")],
    component: Annotated[str, Option(help="What failed, as in 'ignition coil'.")],
    purchased: Purchased = "",
    delivered: Delivered = "",
    in_service: Annotated[str, Option(metavar="DATE", help="First used on, if on another day.")] = "",
    registered: Registered = "",
    never_registered: NeverRegistered = False,
    built: Annotated[str, Option(metavar="DATE", help="Built on; without proof, cover may start then.")] = "",
    presented: Presented = "",
    failed: Failed = "",
    use: Use = "",
    model_year: ModelYear = "",
    serial: Annotated[str, Option(help="Of the unit.")] = "",
    hours: MeterReading = "",
    no_meter: NoMeter = False,
    meter: OtherMeters = None,
    second_owner: Annotated[bool, Option("--second-owner", help="Not the first owner.")] = False,
    resold: Resold = "",
    transferred: Transferred = "",
    case: Annotated[str, Option("--case", metavar="KIND", help="stock: never sold; without it: sold.")] = "",
    invoiced: Invoiced = "",
    no_proof: Annotated[bool, Option("--no-proof", help="There is no proof of purchase.")] = False,
    sold_in: SoldIn = "",
    plans: Plans = None,
    today: Today = "",
    json: Json = False,
) -> int:
    """Answer whether a unit is covered.

    One line for the owner who waits at the counter, then the reasons; no claim is needed.
    """
    from claimpack.commands.desk.options import a_date, meters_told, one_meter, the_day
    from claimpack.commands.desk.say import Say
    from claimpack.commands.screen.telling import note_no_plan, tell_verdict
    from claimpack.core.claims.days_ahead import days_ahead, known_until, refuse_days_ahead
    from claimpack.core.facts.fields import USES
    from claimpack.core.judging.assessment import assess
    from claimpack.core.judging.assessment_json import as_json
    from claimpack.core.plans.component_words import refuse_no_component
    from claimpack.core.plans.uses import refuse_unknown_use
    from claimpack.errors import BadInput
    from claimpack.shop import find_shop
    from claimpack.template_files import Places, plans_for, read_plans

    if case not in ("", "stock"):
        raise BadInput(
            f"--case: {case!r} is not stock", "Other cases go by more than a day.", "claimpack open takes it."
        )
    one_meter(hours, no_meter=no_meter)
    refuse_no_component(component, "--component: ")
    world = context.obj
    day = the_day(world, today)
    written = {
        "purchased": purchased,
        "delivered": delivered,
        "in_service": in_service,
        "registered": registered,
        "resold": resold,
        "transferred": transferred,
        "failed": failed,
        "presented": presented or day.isoformat(),
    }
    dates: dict[str, Any] = {
        role: a_date(text, f"--{role.replace('_', '-')}") for role, text in written.items() if text
    }
    dates["never_registered"] = never_registered
    unit: dict[str, Any] = {
        "model": model,
        "use": use or None,
        "model_year": model_year or None,
        "hours": hours or None,
        "meter": False if no_meter else (True if hours else None),
        "meters": meters_told(meter),
        "built": a_date(built, "--built") if built else None,
        "invoiced": a_date(invoiced, "--invoiced") if invoiced else None,
        "sold_in": sold_in,
        "serials": [{"role": "unit", "value": serial}] if serial else [],
    }
    named = _NAMED if presented else {**_NAMED, "dates.presented": "--today" if today else "today,"}
    about = {
        "maker": maker,
        "case": case or "repair",
        # of a unit resold it is not known whose it is, unless it was said
        "owner": {} if case or (resold and not second_owner) else {"first_owner": not second_owner},
        "proof": {"kind": "none"} if no_proof else {},
        "failure": {"component": component},
    }
    claim = _claim_of({**about, "unit": unit, "dates": dates}, named)
    refuse_days_ahead(days_ahead(claim, known_until(claim, day)), day, "cover", _NAMED)
    # for its plans; the answer needs no shop
    shop = find_shop(world.folder, world.environ.get("CLAIMPACK_SHOP", ""))
    places = Places(named=tuple(plans or ()), shop=shop.folder)
    if use and claim.unit.use not in USES:
        refuse_unknown_use(use, read_plans(places), "--use: ")
    assessment = assess(claim, plans_for(claim, places), day)
    say = Say(world)
    if json:
        say.document(as_json(assessment))
    else:
        tell_verdict(say, assessment, why=True)
        note_no_plan(say, assessment)
    # by the verdict alone: a claim's exit code would ask for papers, and at the counter there are none yet
    return {"covered": 0, "not covered": 3, "undecided": 4}[assessment.verdict]


def _claim_of(about: dict[str, Any], named: dict[str, str]) -> Claim:
    from claimpack.core.claims.claim import Claim
    from claimpack.core.facts.keys import record_from

    return record_from(Claim, {"number": "counter", **about}, "cover", named)
