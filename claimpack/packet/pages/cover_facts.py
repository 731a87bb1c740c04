"""The facts on the cover: unit, owner, dates, what failed, the maker's approval."""

from __future__ import annotations

from typing import Any

from claimpack.core.values.wording.sentence import say
from claimpack.core.values.words import beginning
from claimpack.core.verdict.failures import JudgedFailure
from claimpack.packet.drawing.draft import Draft, day
from claimpack.printing.lettering import text, width_of
from claimpack.printing.tables import facts_table, side_by_side
from claimpack.printing.typeface import REGULAR

LabelledFacts = list[tuple[str, Any]]
"""Labels and their values: texts, or pieces set already."""

_SPACE = 14.0
# The cover stays one page whatever a claim holds: the rest of each list is counted, or stands behind.
_MOST_SERIALS = 5
_MOST_EARLIER = 3
_MOST_FAILURES = 4
# letters; an address or a condition longer than that would push the time line off the cover
_LONGEST = 240
_OWNER_SHARE, _OWNER_LABEL = 0.44, 55


def fact_columns(draft: Draft) -> Any:
    """Unit, owner and dates side by side."""
    words = draft.words
    of_part = draft.claim.case == "part"
    columns = (
        (
            words.part_sold if of_part else words.unit,
            part_facts(draft) if of_part else unit_facts(draft),
            0.34,
            66,
            _SPACE,
        ),
        (words.owner, owner_facts(draft), _OWNER_SHARE, _OWNER_LABEL, _SPACE),
        (words.dates_title, dates(draft), 0.22, 56, 0),
    )
    pieces = [
        [text(title.upper(), "label"), facts_table(facts, draft.width * share - space, label)]
        for title, facts, share, label, space in columns
    ]
    return side_by_side(pieces, [draft.width * share for _, _, share, _, _ in columns], _SPACE)


def unit_facts(draft: Draft) -> LabelledFacts:
    """The machine: model, kind, serial numbers, use, hours."""
    unit, words = draft.claim.unit, draft.words
    facts = [(words.model, unit.model), (words.kind, unit.kind)]
    facts += [(words.serial.format(role=draft.role(one.role)), one.value) for one in unit.serials[:_MOST_SERIALS]]
    facts.append((words.serial.format(role="…"), shown_on_cover(further_serials(draft))))
    facts.append((words.use, draft.spoken(unit.use) if unit.use else ""))
    facts.append((words.hours, _hours(draft)))
    facts += [(one.kind, draft.figures(one.said)) for one in unit.other_meters]
    year = "" if unit.model_year is None else str(unit.model_year)
    facts += [
        (words.built, day(unit.built, "")),
        (words.invoiced, day(unit.invoiced, "")),
        (words.model_year, year),
        (words.sold_in, unit.sold_in),
    ]
    return [fact for fact in facts if fact[1]]


def part_facts(draft: Draft) -> LabelledFacts:
    """The part that was sold, with its own number and days, and the machine it is for."""
    sold, words = draft.claim.part_sold, draft.words
    fitted = words.never_fitted if sold.never_fitted else day(sold.fitted, words.not_noted)
    facts = [
        (words.part, sold.name),
        (words.number, sold.number),
        (words.serial.format(role=words.part), sold.serial),
        (words.sold, day(sold.sold, words.none_given)),
        (words.fitted, fitted),
        (words.for_model, " ".join(part for part in (draft.claim.unit.model, draft.serial) if part)),
    ]
    return [fact for fact in facts if fact[1]]


def _hours(draft: Draft) -> str:
    unit = draft.claim.unit
    if unit.has_hour_meter is False:
        return draft.words.no_meter
    return f"{draft.figures(unit.hours_said)} h" if unit.hours_said else draft.words.not_noted


def owner_facts(draft: Draft) -> LabelledFacts:
    """The owner, and how to reach them."""
    owner, words = draft.claim.owner, draft.words
    # the fields are not left blank, which would look as if they had been forgotten
    if draft.claim.is_stock:
        return [(words.stock_unit, words.no_owner_yet)]
    facts = [
        (words.name, owner.name or words.none_given),
        (words.address, shown_on_cover(owner.address)),
        (words.phone, owner.phone),
        (words.email, _mail(draft)),
        (words.first_owner, "" if owner.first_owner is None else draft.yes_or_no(owner.first_owner)),
    ]
    return [fact for fact in facts if fact[1]]


def _mail(draft: Draft) -> Any:
    """The mail address on one line, set smaller at need; broken before its sign where it is too long even so."""
    mail = draft.claim.owner.email
    room = draft.width * _OWNER_SHARE - _SPACE - _OWNER_LABEL - 4
    if width_of(mail, REGULAR, 8.5) <= room:
        return mail
    # a mail address has no blank to break at
    return text(mail, "file") if width_of(mail, REGULAR, 7.5) <= room else mail.replace("@", "\n@", 1)


def further_serials(draft: Draft) -> str:
    """The serial numbers beyond those that have a line of their own."""
    return "; ".join(f"{draft.role(one.role)} {one.value}" for one in draft.claim.unit.serials[_MOST_SERIALS:])


def shown_on_cover(told: str) -> str:
    """A text as far as the cover has room for it."""
    return beginning(told, _LONGEST)


def dates(draft: Draft) -> LabelledFacts:
    """The claim's dates, in the order they happen; the three that every claim turns on are never left out."""
    given, words = draft.claim.dates, draft.words
    registered = words.never_registered if given.never_registered else day(given.registered, "")
    facts = [
        (words.purchased, day(given.purchased, "")),
        (words.delivered, day(given.delivered, "")),
        (words.in_service, day(given.in_service, "")),
        (words.registered, registered),
        (words.failed, day(given.failed, "" if draft.claim.case == "campaign" else words.none_given)),
        (words.presented, day(given.presented)),
        (words.repaired, day(given.repaired, words.none_given)),
        (words.returned, day(given.returned, "")),
        (words.resold, day(given.resold, "")),
        (words.transferred, day(given.transferred, "")),
    ]
    return [fact for fact in facts if fact[1]]


def failure_facts(draft: Draft) -> Any:
    """What failed beside the approval, the proof of purchase and earlier repairs."""
    failure, words = draft.claim.failure, draft.words
    part = " · ".join(said for said in (failure.part.name, failure.part.number, failure.part.serial) if said)
    defect = draft.spoken(failure.defect) if failure.defect else words.none_given
    of_case = _case_facts(draft)
    left = [
        *of_case,
        (words.component, draft.claim.component() or words.none_given),
        (words.failed_part, part),
        (words.defect, defect),
    ]
    if draft.claim.case == "campaign":
        # a campaign is done whether anything failed or not
        left = [fact for fact in left if fact[1] != words.none_given]
    if draft.assessment.failures:
        left = [*of_case, *(_one_of_several(draft, one) for one in draft.assessment.failures[:_MOST_FAILURES])]
        left += [("", "…")] if len(draft.assessment.failures) > _MOST_FAILURES else []
    half = draft.width / 2
    told = ([fact for fact in left if fact[1]], [*_of_approval(draft), *_of_proof(draft), *_earlier(draft)])
    rooms = ((half - _SPACE, 66), (half, 82))
    # the owner of a unit in stock is told of no approval, proof or earlier repair
    tables = [facts_table(facts, *room) if facts else "" for facts, room in zip(told, rooms, strict=True)]
    return side_by_side(tables, [half, half], _SPACE)


def _one_of_several(draft: Draft, one: JudgedFailure) -> tuple[str, str]:
    """A failure by its number: what failed, how, and whether it is covered."""
    defect = draft.spoken(one.claim.failure.defect) if one.claim.failure.defect else ""
    told = ", ".join(word for word in (one.component, defect) if word) or draft.words.none_given
    label = draft.said(say("failure.number", failure=one.number))
    return label, f"{told}. {shown_on_cover(draft.said(one.headline))}"


def _case_facts(draft: Draft) -> LabelledFacts:
    """What kind of case it is, where it is no repair for an owner under warranty."""
    claim, words = draft.claim, draft.words
    kinds = {
        "stock": words.case_stock,
        "part": words.case_part,
        "campaign": words.case_campaign.format(campaign=claim.campaign or words.none_given),
        "declined": words.case_declined,
    }
    return [(words.case, kinds[claim.case])] if claim.case in kinds else []


def _of_proof(draft: Draft) -> LabelledFacts:
    """The proof of purchase; nothing for a unit in stock, which nobody bought."""
    return [] if draft.claim.is_stock else [(draft.words.proof, _proof(draft))]


def _proof(draft: Draft) -> str:
    words, proof = draft.words, draft.claim.proof
    kinds = {
        "receipt": words.proof_receipt,
        "registration": words.proof_registration,
        "dealer-record": words.proof_dealer_record,
        "none": words.proof_none,
    }
    return kinds[proof.kind] if proof.kind else words.none_given


def _earlier(draft: Draft) -> LabelledFacts:
    told = [
        ", ".join(part for part in (one.component, day(one.repaired), one.claim) if part)
        for one in draft.claim.earlier[:_MOST_EARLIER]
    ]
    more = ["…"] if len(draft.claim.earlier) > _MOST_EARLIER else []
    return [(draft.words.earlier, "\n".join([*told, *more]))] if told else []


def _of_approval(draft: Draft) -> LabelledFacts:
    """The maker's approval, which names an amount, for those who are told amounts."""
    return [(draft.words.approval, _approval(draft))] if draft.layout.tells_prices else []


def _approval(draft: Draft) -> str:
    given, words = draft.claim.approval, draft.words
    if given is None or not (given.number or given.by or given.on or given.state):
        return words.none_given
    said = [given.number] if given.number else []
    if given.is_waited_for:
        said.append(words.approval_asked.format(day=day(given.asked)))
    if given.is_refused:
        refused = words.approval_refused_on.format(day=day(given.on)) if given.on else words.approval_refused
        return ", ".join([*said, refused])
    if given.on:
        said.append(words.approval_on.format(day=day(given.on)))
    if given.by:
        said.append(words.approval_by.format(name=given.by))
    if given.up_to is not None:
        # amount and currency stay on one line
        amount = draft.money(given.up_to).replace(" ", "\N{NO-BREAK SPACE}")
        said.append(words.approval_up_to.format(amount=amount))
    if given.expires:
        said.append(words.approval_until.format(day=day(given.expires)))
    if given.conditions:
        said.append(words.approval_conditions.format(text=shown_on_cover(" ".join(given.conditions.split()))))
    return ", ".join(said)
