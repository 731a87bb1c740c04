"""`claimpack approval`: the maker asked before the repair, and what it said."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Because, BookClaim, Json, On, Today
from claimpack.commands.line.declared import Context, Family, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.changing import Changing
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.gather import Case
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.claim import Claim
    from claimpack.core.payment.letters.letter import Letter

approval_app = Family(help="Ask the maker before the repair; record its answer.")
"""The commands about prior approval."""

Number = Annotated[str, Option("--number", metavar="TEXT", help="The maker's number.")]
By = Annotated[str, Option("--by", metavar="NAME", help="Who said so.")]
Undo = Annotated[bool, Option("--undo", help="It was entered by mistake.")]


@approval_app.command("request")
def request(
    context: Context,
    claim: BookClaim,
    ask: Annotated[str, Option("--ask", metavar="TEXT", help="The question, in your words.")] = "",
    operation: Annotated[
        list[str] | None,
        Option(
            "--operation", metavar="CODE", help="An operation to be done that is not on the claim yet (repeatable)."
        ),
    ] = None,
    again: Annotated[bool, Option("--again", help="Ask once more, although an approval is there.")] = False,
    out: Annotated[
        Path | None, Option("--out", metavar="FILE", help="The PDF to write; default: NUMBER-approval.pdf.")
    ] = None,
    text: Annotated[bool, Option("--text", help="Say it as text; a PDF only with --out.")] = False,
    paper: Annotated[str, Option("--paper", metavar="letter|legal|a4", help="The paper of the PDF.")] = "letter",
    undo: Undo = False,
    because: Because = "",
    today: Today = "",
    json: Json = False,
) -> int:
    """Write what the maker needs to say yes, and let the claim wait for its answer."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.named_files import answering_beside, ending_of, write_named
    from claimpack.commands.desk.say import Say
    from claimpack.commands.outgoing.correspondence import evidence_behind
    from claimpack.core.payment.letters.letter import as_text
    from claimpack.core.steps.approving import asked
    from claimpack.core.values.money import plain
    from claimpack.printing.papers import page_of

    ending_of(out, (".pdf",), "The request is a PDF; --text says it as text.")
    say, desk = Say(answering_beside(context.obj, out, json or text)), Desk(context.obj, today)
    if undo:
        return _taken_back(desk, say, claim, "asked", because, json=json)
    page = page_of(paper)
    case, revision = _estimated(context, desk, claim, operation or (), again=again)
    letter, evidence = _letter(desk, say, case, ask)
    path = context.obj.path(out or f"{case.claim.number}-approval.pdf") if out or not text else None
    amounts = case.assessment.amounts
    estimate = plain(amounts.claimed) if amounts else ""
    with desk.changing(case.claim.number, revision) as changing:
        if path:
            write_named(context.obj, path, evidence_behind(letter, evidence, page))
        facts = {"estimate": estimate, "operations": ", ".join(operation or ())}
        _keep(changing, asked(changing.claim, desk.day, ask), "approval asked for", facts)
    if json:
        facts = _facts(changing.claim)
        say.document({**facts, "estimate": estimate, "file": str(path) if path else None, "text": as_text(letter)})
        return 0
    if text:
        say.answer(as_text(letter))
    if path:
        say.path(path)
    say.note(f"Read it, sign it and send it. When the maker answers: claimpack approval given|refused {claim}")
    return 0


@approval_app.command("given")
def given(
    context: Context,
    claim: BookClaim,
    number: Number = "",
    amount: Annotated[str, Option("--amount", metavar="AMOUNT", help="Up to how much.")] = "",
    expires: Annotated[str, Option("--expires", metavar="DATE", help="The last day of the repair.")] = "",
    conditions: Annotated[str, Option("--conditions", metavar="TEXT", help="What the maker ties it to.")] = "",
    by: By = "",
    on: On = "",
    undo: Undo = False,
    because: Because = "",
    today: Today = "",
    json: Json = False,
) -> int:
    """Record that the maker approved the repair."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say

    say, desk = Say(context.obj), Desk(context.obj, today)
    if undo:
        return _taken_back(desk, say, claim, "given", because, json=json)
    keys = {"number": number, "by": by, "conditions": conditions, "expires": expires, "amount": amount, "on": on}
    return _answered(desk, say, claim, "given", keys, json=json)


@approval_app.command("refused")
def refused(
    context: Context,
    claim: BookClaim,
    because: Annotated[str, Option("--because", metavar="TEXT", help="Why, in the maker's words.")] = "",
    number: Number = "",
    by: By = "",
    on: On = "",
    undo: Undo = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Record that the maker refused to approve the repair."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say

    say, desk = Say(context.obj), Desk(context.obj, today)
    if undo:
        return _taken_back(desk, say, claim, "refused", because, json=json)
    keys = {"number": number, "by": by, "because": because, "on": on}
    return _answered(desk, say, claim, "refused", keys, json=json)


def _estimated(context: Context, desk: Desk, claim: str, operations: Sequence[str], *, again: bool) -> tuple[Case, int]:
    """The claim with the operations to be done, assessed, and the revision it was read at.

    Raises:
        ClaimpackError: there is no such claim, it takes no changes, or there is nothing to ask for.
    """
    from claimpack.commands.desk.gather import assessed, from_book
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.core.facts.keys import record_from
    from claimpack.core.facts.lines import Labour
    from claimpack.core.steps.approving import refuse_unaskable

    number = number_of(claim)
    desk.must_take_changes(number)
    case = from_book(context.obj, desk.shop, number, None, desk.day)
    revision = case.entry.revision if case.entry else 0
    to_do = [
        record_from(Labour, {"operation": code}, "approval request", {"operation": "--operation"})
        for code in operations
    ]
    plan = case.assessment.plan
    for entry in to_do:
        _must_be_scheduled(entry.operation, plan.scheduled_operation(entry.operation) is not None if plan else True)
    if to_do:
        planned = case.claim.model_copy(update={"labour": (*case.claim.labour, *to_do)})
        case = case._replace(claim=planned, assessment=assessed(planned, case.places, desk.day, case.circumstances))
    refuse_unaskable(case.assessment, again=again)
    return case, revision


def _must_be_scheduled(code: str, is_known: bool) -> None:
    from claimpack.errors import BadInput

    if not is_known:
        raise BadInput(
            f"--operation: {code!r} is not in the plan's time schedule",
            "An estimate needs hours, and the schedule gives them for its own operations alone.",
            "Write the code as the schedule does; for other work: claimpack labour add CLAIM WORK --hours HOURS",
        )


def _letter(desk: Desk, say: Say, case: Case, question: str) -> tuple[Letter, bytes]:
    """The request, and the pages that go along with it."""
    from claimpack.commands.folder.packet_making import evidence_pages
    from claimpack.commands.outgoing.correspondence import address_in, sender_in
    from claimpack.core.payment.letters.approval_letter import evidence_named, request
    from claimpack.packet.enclosed_pages import page_count

    evidence = evidence_pages(case, say)
    enclosed = evidence_named(case.claim, page_count(evidence)) if evidence else ()
    maker = case.claim.maker
    address = address_in(desk, maker, case.assessment.maker_name)
    return request(case.assessment, question, sender_in(desk, maker), address, enclosed), evidence


def _answered(desk: Desk, say: Say, claim: str, state: Any, keys: dict[str, str], *, json: bool) -> int:
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.options import a_date
    from claimpack.core.facts.keys import record_from
    from claimpack.core.payment.next_step import before_the_work
    from claimpack.core.steps.approving import Said, answered
    from claimpack.core.steps.settling import amount_in, refuse_day_ahead
    from claimpack.core.values.wording.sentence import Sentence

    number = number_of(claim)
    on = a_date(keys["on"], "--on") if keys["on"] else desk.day
    refuse_day_ahead(on, desk.day)
    entry = desk.book.get(number)
    amount, expires = keys.pop("amount", ""), keys.pop("expires", "")
    values = {
        **keys,
        "on": on,
        "up_to": amount_in(amount, "--amount", entry.summary.currency) if amount else None,
        "expires": a_date(expires, "--expires") if expires else None,
    }
    said = record_from(Said, values, f"approval {state}", {key: f"--{key}" for key in keys})
    with desk.changing(number) as changing:
        _keep(changing, answered(changing.claim, state, said), f"approval {state}", {})
    steps = before_the_work(desk.assess(desk.book.get(number)), Sentence.plainly if json else str)
    if json:
        say.document({**_facts(changing.claim), "first": list(steps)})
        return 0
    told = f" {said.number}" if said.number else ""
    say.answer(f"{number}: approval{told} {state} on {on}")
    for step in steps:
        say.note(step)
    return 0


def _taken_back(desk: Desk, say: Say, claim: str, state: str, because: str, *, json: bool) -> int:
    from claimpack.book.lookups import versions
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.core.steps.approving import undone
    from claimpack.core.steps.settling import Step, refuse_without_reason

    number = number_of(claim)
    refuse_without_reason(Step(on=desk.day, why=because), "Entered on the wrong claim.")
    entry = desk.book.get(number)
    earlier = [version for _, version in versions(desk.book.engine, number, 1, entry.revision)]
    with desk.changing(number, entry.revision) as changing:
        _keep(changing, undone(changing.claim, state, reversed(earlier)), because, {"undone": f"approval {state}"})
    if json:
        say.document(_facts(changing.claim))
        return 0
    after = changing.claim.approval
    stands = "nothing is recorded of an approval" if after is None else f"the approval is {after.state or 'given'}"
    say.answer(f"{number}: approval {state} is taken back; {stands}")
    return 0


def _keep(changing: Changing, after: Claim, why: str, facts: dict[str, str]) -> None:
    from claimpack.commands.screen.changes import facts_of
    from claimpack.core.claims.editing.changes import differences

    changed = facts_of(list(differences(changing.claim, after)))
    changing.keep(after, why=why, facts={**changed, **{name: fact for name, fact in facts.items() if fact}})


def _facts(claim: Claim) -> dict[str, Any]:
    approval = claim.approval
    return {"claim": claim.number, "approval": approval.model_dump(mode="json") if approval else None}
