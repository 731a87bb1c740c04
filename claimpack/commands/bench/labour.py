"""`claimpack labour`: who worked how long, by the clock or as written down."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.bench.part import ForFailure, Payer
from claimpack.commands.desk.options import BookClaim, Json, Yes
from claimpack.commands.line.declared import Argument, Context, Family, Option

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Clock
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.facts.lines import Labour
    from claimpack.core.pricing.labour import LabourTime, OperationMeant

labour_app = Family(help="Clock labour, or write it down.")
"""The commands about labour."""

Operation = Annotated[str, Argument(metavar="OPERATION", help="A code of the plan's time schedule, or what was done.")]
Technician = Annotated[str, Option("--technician", metavar="NAME", help="Who works; default: you.")]
PaidBy = Annotated[Payer, Option(help="Who pays for it.")]
_NAMED = {"operation": "OPERATION", "technician": "--technician", "hours": "--hours", "class": "--class"}


@labour_app.command("start")
def start_clock(
    context: Context, claim: BookClaim, operation: Operation, technician: Technician = "", json: Json = False
) -> int:
    """Start a technician's clock on a claim."""
    from claimpack.commands.bench.labour_entries import clock_json, clock_of, stop_command, whose_clock
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.core.facts.keys import record_from
    from claimpack.core.facts.lines import Labour
    from claimpack.core.payment.next_step import before_the_work
    from claimpack.core.values.clock import fixed
    from claimpack.core.values.wording.sentence import Sentence

    desk, say = Desk(context.obj), Say(context.obj)
    # with its offset: a clock that runs over the change to summer time must not gain an hour
    number, started = number_of(claim), fixed(context.obj.now())
    desk.must_take_changes(number)
    who = whose_clock(desk, technician)
    meant = _meant(desk, number, operation)
    entry = record_from(Labour, {"operation": meant.operation, "technician": who}, "labour start", _NAMED)
    desk.book.start_clock(entry.technician, number, entry.operation, started)
    # a repair begun before the maker approved it may lose the claim, so it is told before the clock has run long
    first = before_the_work(desk.assess(desk.book.get(number)), Sentence.plainly if json else str)
    for said in (*first, *([meant.note] if meant.note else [])):
        say.note(str(said))
    if json:
        say.document({**clock_json(desk, clock_of(desk, entry.technician)), "first": list(first)})
        return 0
    say.answer(f"{number}: {entry.technician}'s clock runs on {entry.operation} since {started:%H:%M}")
    say.note(f"When the work is done: {stop_command(desk, entry.technician)}")
    return 0


@labour_app.command("stop")
def stop_clock(
    context: Context,
    technician: Technician = "",
    at: Annotated[
        str,
        Option(metavar="TIME", help="When the work ended, as in 16:30, or 0:10 for after midnight; default: now."),
    ] = "",
    payer: PaidBy = Payer.maker,
    discard: Annotated[bool, Option("--discard", help="Throw the time away.")] = False,
    yes: Yes = False,
    json: Json = False,
) -> int:
    """Stop a clock and put its time on the claim.

    A clock that ran longer than 12 hours, or longer than 6 and over midnight, was forgotten: say when with --at.
    """
    from claimpack.commands.bench.labour_entries import clock_of, stop_earlier, throw_away, whose_clock
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.facts.keys import record_from
    from claimpack.core.facts.lines import Labour
    from claimpack.core.pricing.working_time import must_fit_a_day
    from claimpack.core.values.clock import stopped_at

    desk, say = Desk(context.obj), Say(context.obj)
    clock = clock_of(desk, whose_clock(desk, technician))
    if discard:
        return throw_away(desk, say, clock, yes=yes, json=json)
    ended = stopped_at(clock.started, at, context.obj.now(), context.obj.shown)
    times = {"started": clock.started.isoformat(), "ended": ended.isoformat()}
    keys = {"operation": clock.operation, **times, "technician": clock.technician, "payer": payer.value}
    entry = record_from(Labour, keys, "labour stop", _NAMED)
    # a clock that ran over a weekend was forgotten, and its hours are nobody's
    must_fit_a_day(entry, context.obj.shown, stop_earlier(clock))
    return _add(desk, say, clock.claim, entry, stops=clock, json=json)


@labour_app.command("add")
def add_labour(
    context: Context,
    claim: BookClaim,
    operation: Operation,
    hours: Annotated[str, Option(metavar="HOURS", help="How long, as in 1.6.")] = "",
    started: Annotated[
        str,
        Option(metavar="TIME", help="When it began, as in 9:05 or 2026-02-24T09:05."),
    ] = "",
    ended: Annotated[
        str,
        Option(metavar="TIME", help="When it ended, as in 16:30 or 2026-02-24T16:30."),
    ] = "",
    technician: Technician = "",
    payer: PaidBy = Payer.maker,
    class_: Annotated[
        str,
        Option("--class", metavar="CLASS", help="The class of the labour, where the maker's rate goes by it."),
    ] = "",
    failure: ForFailure = 1,
    json: Json = False,
) -> int:
    """Write labour down: hours, or a start and an end."""
    from claimpack.commands.bench.labour_entries import who_works
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.commands.screen.changes import note_begun
    from claimpack.core.claims.days_ahead import refuse_days_ahead, written_days_ahead
    from claimpack.core.facts.keys import record_from
    from claimpack.core.facts.lines import Labour
    from claimpack.core.pricing.working_time import must_fit_a_day
    from claimpack.core.values.clock import from_to
    from claimpack.errors import BadInput

    # both would be two answers, a start alone is a running clock
    if bool(hours) == bool(started) or bool(started) != bool(ended):
        raise BadInput(
            "labour add needs --hours, or --started and --ended together",
            "Time is claimed as it was worked, so it must be said once and whole.",
            f"To let a clock run instead: claimpack labour start {claim} {operation!r}",
        )
    desk, say, world = Desk(context.obj), Say(context.obj), context.obj
    ahead = written_days_ahead([("labour.started", started), ("labour.ended", ended)], desk.day)
    given = {"labour.started": "--started", "labour.ended": "--ended"}
    refuse_days_ahead(ahead, desk.day, "labour add", given, "Correct the day.")
    number, who = number_of(claim), who_works(desk, technician)
    keys: dict[str, Any] = {"operation": operation, "technician": who, "payer": payer.value}
    keys |= {"failure": failure, **({"class": class_} if class_ else {})}
    if hours:
        keys["hours"] = hours
    else:
        begun, done = from_to(started, ended, world.now(), world.shown)
        keys |= {"started": begun.isoformat(), "ended": done.isoformat()}
    entry = record_from(Labour, keys, "labour add", _NAMED)
    must_fit_a_day(entry, world.shown, "Correct it; work over several days is written down day by day.")
    meant = _meant(desk, number, entry.operation)
    entry = entry.model_copy(update={"operation": meant.operation})
    done_so = _add(desk, say, number, entry, note=meant.note, json=json)
    note_begun(say, desk, number)
    return done_so


@labour_app.command("list")
def list_labour(context: Context, claim: BookClaim, json: Json = False) -> int:
    """List the labour on a claim, and what is claimed of it."""
    from claimpack.commands.bench.labour_entries import clock_json, entry_json, tell_clock, tell_entries
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say

    desk, say, number = Desk(context.obj), Say(context.obj), number_of(claim)
    entries = desk.book.get(number).claim.labour
    times = _times(desk, number)
    clocks = [clock for clock in desk.book.clocks() if clock.claim == number]
    if json:
        labour = [entry_json(n, entry, times) for n, entry in enumerate(entries, start=1)]
        say.document({"claim": number, "labour": labour, "running": [clock_json(desk, clock) for clock in clocks]})
        return 0
    if entries:
        tell_entries(say, entries, times)
    for clock in clocks:
        tell_clock(desk, say, clock)
    if not entries and not clocks:
        say.note(f"No labour yet: claimpack labour start {number} OPERATION")
    return 0


@labour_app.command("remove")
def remove_labour(
    context: Context,
    claim: BookClaim,
    place: Annotated[int, Argument(metavar="N", help="Which one, as listed.")],
    json: Json = False,
) -> int:
    """Take a labour entry off a claim."""
    from claimpack.commands.bench.labour_entries import entry_json
    from claimpack.commands.desk.one_claim import take_off
    from claimpack.commands.desk.say import Say

    entry = take_off(context.obj, claim, place, "labour", "operation")
    say = Say(context.obj)
    if json:
        say.document({"claim": claim, "removed": entry_json(place, entry, ())})
    else:
        say.answer(f"{claim}: {entry.operation} removed")
    return 0


@labour_app.command("running")
def running(context: Context, json: Json = False) -> int:
    """List every running clock, forgotten ones marked."""
    from claimpack.commands.bench.labour_entries import clock_json, tell_clock
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say

    desk, say = Desk(context.obj), Say(context.obj)
    clocks = desk.book.clocks()
    if json:
        say.document({"running": [clock_json(desk, clock) for clock in clocks]})
        return 0
    for clock in clocks:
        tell_clock(desk, say, clock)
    if not clocks:
        say.note("No clock is running.")
    return 0


def _meant(desk: Desk, number: str, operation: str) -> OperationMeant:
    """The operation as the schedule writes it; one it does not know is kept as free text, the nearest suggested."""
    from claimpack.core.pricing.labour import operation_meant

    claim = desk.book.get(number).claim
    return operation_meant(operation, desk.plan_of(claim))


def _add(
    desk: Desk, say: Say, number: str, entry: Labour, *, stops: Clock | None = None, note: str = "", json: bool
) -> int:
    """Put an entry on the claim, and the clock it came from out of the book, in one step; tell doubts about it."""
    from claimpack.commands.bench.labour_entries import entry_json, span_of_other_days, worked_in_words
    from claimpack.commands.bench.time_doubts import doubts_about
    from claimpack.commands.desk.one_claim import must_have_failure

    doubts = doubts_about(desk, number, entry, stops)
    with desk.changing(number) as changing:
        must_have_failure(changing.claim, entry.failure)
        # in the same transaction as its hours, or a crash between would count them twice or lose them
        if stops:
            changing.stop_clock(stops)
        labour = (*changing.claim.labour, entry)
        why = ", ".join(filter(None, (f"labour {entry.operation}", entry.worker)))
        changing.keep(changing.claim.model_copy(update={"labour": labour}), why=why)
    times, place = _times(desk, number), len(labour)
    if json:
        say.document(
            {"claim": number, **entry_json(place, entry, times), "doubts": [*([note] if note else []), *doubts]}
        )
        return 0
    told = (entry.operation, worked_in_words(entry), entry.worker, span_of_other_days(say, entry))
    say.answer(f"{number}: {', '.join(part for part in told if part)}")
    for doubt in doubts:
        say.note(f"{doubt} If this entry is wrong: claimpack labour remove {number} {place}")
    for said in (note, *(times[place - 1].notes if times else ())):
        if said:
            say.note(str(said))
    return 0


def _times(desk: Desk, number: str) -> tuple[LabourTime, ...]:
    """What is claimed for every entry; empty where no plan is found to price with."""
    price = desk.assess(desk.book.get(number)).price
    return price.labour if price else ()
