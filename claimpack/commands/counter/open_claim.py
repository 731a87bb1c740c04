"""`claimpack open`: a unit taken in at the counter, answered at once, and kept in the book."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import (
    Built,
    Case,
    Delivered,
    Failed,
    Fitted,
    Invoiced,
    Json,
    MeterReading,
    ModelYear,
    NeverFitted,
    NeverRegistered,
    NoMeter,
    OfCampaign,
    OtherMeters,
    PartName,
    PartNumber,
    PartSerial,
    Plans,
    Presented,
    Purchased,
    Registered,
    Resold,
    Sold,
    SoldIn,
    Today,
    Transferred,
    Use,
)
from claimpack.commands.line.declared import Context, Option

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say


def open_claim(
    context: Context,
    maker: Annotated[str, Option(help="The maker.")] = "",
    model: Annotated[str, Option(help="As on the serial plate.")] = "",
    serial: Annotated[str, Option(help="Of the unit.")] = "",
    engine_serial: Annotated[str, Option(help="Of the engine.")] = "",
    kind: Annotated[str, Option(help="As in 'cut-off saw'.")] = "",
    use: Use = "",
    model_year: ModelYear = "",
    hours: MeterReading = "",
    no_meter: NoMeter = False,
    meter: OtherMeters = None,
    purchased: Purchased = "",
    delivered: Delivered = "",
    registered: Registered = "",
    never_registered: NeverRegistered = False,
    presented: Presented = "",
    failed: Failed = "",
    component: Annotated[str, Option(help="What failed, as in 'ignition coil'.")] = "",
    complaint: Annotated[str, Option(help="In the owner's words.")] = "",
    owner: Annotated[str, Option(help="The owner's name.")] = "",
    phone: Annotated[str, Option(help="The owner's phone.")] = "",
    email: Annotated[str, Option(help="The owner's mail address.")] = "",
    first_owner: Annotated[
        bool | None,
        Option("--first-owner/--second-owner", help="Whether this is the unit's first owner."),
    ] = None,
    resold: Resold = "",
    transferred: Transferred = "",
    proof: Annotated[str, Option(help="receipt, registration, dealer-record or none.")] = "",
    sold_in: SoldIn = "",
    case: Case = "",
    campaign: OfCampaign = "",
    invoiced: Invoiced = "",
    built: Built = "",
    part_number: PartNumber = "",
    part_name: PartName = "",
    part_serial: PartSerial = "",
    sold: Sold = "",
    fitted: Fitted = "",
    never_fitted: NeverFitted = False,
    because: Annotated[str, Option(metavar="TEXT", help="With --case goodwill: why it is asked.")] = "",
    like: Annotated[
        str,
        Option(
            metavar="CLAIM",
            help="Fill in owner, papers and dates as in this claim; the unit too, with another maker or its serial.",
        ),
    ] = "",
    photo: Annotated[
        Path | None,
        Option(metavar="FILE", help="A picture of the unit's plate; what it shows is offered."),
    ] = None,
    take: Annotated[bool, Option("--take", help="With --photo: take what it shows, without asking.")] = False,
    number: Annotated[str, Option(help="The claim's number; default: the next one of the year.")] = "",
    ask: Annotated[bool, Option("--ask", help="Ask for all that the options leave open.")] = False,
    plans: Plans = None,
    today: Today = "",
    json: Json = False,
) -> int:
    """Take a unit in: by questions, or from options alone."""
    from claimpack.commands.counter.open_from_photo import PlatePhoto
    from claimpack.commands.counter.taking_in import TakingIn, papers_of
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.options import as_given, meters_told, one_meter
    from claimpack.commands.desk.say import Say
    from claimpack.commands.talk.answered import options_of
    from claimpack.commands.talk.counter_session import CounterSession
    from claimpack.core.claims.days_ahead import refuse_days_ahead, written_days_ahead
    from claimpack.core.plans.component_words import refuse_no_component
    from claimpack.core.plans.uses import refuse_unknown_use

    one_meter(hours, no_meter=no_meter)
    refuse_no_component(component, "open: --component: ")
    desk = Desk(context.obj, today, plans)
    refuse_unknown_use(use, desk.plans, "open: --use: ")
    written = {
        "failure.complaint": complaint,
        "maker": maker,
        "unit.model": model,
        "unit.kind": kind,
        "unit.serials.@unit": serial,
        "unit.serials.@engine": engine_serial,
        "unit.use": use,
        "unit.model_year": model_year,
        "unit.meter": "none" if no_meter else hours,
        "unit.sold_in": sold_in,
        "dates.purchased": purchased,
        "dates.delivered": delivered,
        "dates.registered": registered,
        "dates.never_registered": "yes" if never_registered else "",
        "dates.failed": failed,
        "dates.presented": presented or ("" if like else desk.day.isoformat()),
        "proof.kind": proof,
        "owner.first_owner": {True: "yes", False: "no", None: ""}[first_owner],
        "dates.resold": resold,
        "dates.transferred": transferred,
        "owner.name": owner,
        "owner.phone": phone,
        "owner.email": email,
        "failure.component": component,
        "case": case or ("campaign" if campaign else ""),
        "campaign": campaign,
        "unit.invoiced": invoiced,
        "unit.built": built,
        "part_sold.number": part_number,
        "part_sold.name": part_name,
        "part_sold.serial": part_serial,
        "part_sold.sold": sold,
        "part_sold.fitted": fitted,
        "part_sold.never_fitted": "yes" if never_fitted else "",
        "goodwill.because": because,
    }
    _must_be_free(desk, number)
    answers: dict[str, Any] = {key: text for key, text in written.items() if text}
    refuse_days_ahead(written_days_ahead(answers.items(), desk.day), desk.day, "open", options_of(answers))
    begun = desk.book.get(like) if like else None
    say = Say(context.obj)
    carried = _carried(say, desk, begun, answers) if begun else ""
    if case == "part" and not serial:
        # The machine that a part was sold for need not be there.
        answers["unit.serials"] = []
    meters = {"unit.meters": meters_told(meter)} if meter else {}
    session = CounterSession.in_memory(desk.places, desk.day, {**answers, **meters}, options_of(answers), carried)
    session.dates = desk.shop.settings.dates
    plate = PlatePhoto(desk, say, photo) if photo else None
    if plate:
        plate.offer(session, take=take)
    counter = TakingIn(say, desk, quiet=json, files=papers_of(begun) if begun else ())
    others = as_given(
        like=like, meter=meter, photo=str(photo or ""), take=take, number=number, plans=plans, today=today, json=json
    )
    entry = counter.take_in(counter.claim_from(session, others, ask=ask), number)
    if plate:
        plate.put_on(entry.claim.number)
    # Whoever reads the answer may stop reading: the claim is at hand before anything is told.
    at_hand = "" if json else _taken_at_hand(desk, entry.claim.number)
    counter.tell(entry)
    if at_hand:
        say.note(at_hand)
    return 0


def _carried(say: Say, desk: Desk, begun: Entry, answers: dict[str, Any]) -> str:
    """What the claim before tells of this one, as TOML; of another unit what two on one receipt share. It is told.

    On the same visit, to another maker, the day brought in is carried too; otherwise it is today unless answered.
    """
    from claimpack.core.claims.carried_over import alike, another_visit, carried_over, told_of
    from claimpack.core.values.words import folded, run_on
    from claimpack.folder.claim_toml import claim_to_toml

    claim, maker, serial = begun.claim, answers.get("maker", ""), answers.get("unit.serials.@unit", "")
    same_visit = bool(maker) and folded(maker) != folded(claim.maker)
    has_serial = run_on(serial) in {run_on(one.value) for one in claim.unit.serials}
    same_unit = same_visit or (has_serial if serial else bool(maker))
    kept = carried_over(claim) if same_visit else another_visit(claim, desk.day) if same_unit else alike(claim)
    if not same_visit:
        answers.setdefault("dates.presented", desk.day.isoformat())
    unit = "The same unit" if same_unit else "Another unit alike"
    say.note(f"{unit}; from {claim.number} came {', '.join(told_of(kept))}.")
    return claim_to_toml(kept).replace("serials = []\n", "")


def _taken_at_hand(desk: Desk, number: str) -> str:
    """Have the new claim at hand, and say so; where its folder takes no file, the claim is opened all the same."""
    from claimpack.commands.typed.at_hand import have_at_hand
    from claimpack.errors import CannotWrite

    try:
        have_at_hand(desk, number)
    except CannotWrite as error:
        return f"It is not at hand: {error.what}."
    return "It is at hand: CLAIM may be left out from now on."


def _must_be_free(desk: Desk, number: str) -> None:
    """Refuse a number that is taken before anybody answers a question."""
    from claimpack.errors import BadInput

    if number and next(desk.book.entries([number]), None):
        raise BadInput(
            f"claim {number} is already in the book",
            "A claim number stands for one claim for ever.",
            "Leave --number out for the next free one.",
        )
