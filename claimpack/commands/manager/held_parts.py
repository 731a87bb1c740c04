"""Held parts gathered for the hold commands: by the code on a tag, or as a list with what may be done with each."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from datetime import date

    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.claims.part_codes import PartCode
    from claimpack.core.events.standing import Standing
    from claimpack.core.facts.lines import HeldPart
    from claimpack.core.holding.release_rules import Keeping, LetGo
    from claimpack.core.holding.tags import TagFacts
    from claimpack.core.steps.listed import ListedPart


class PartFound(NamedTuple):
    """One held part with everything that decides about it."""

    entry: Entry
    code: PartCode
    tag: TagFacts
    keeping: Keeping

    @property
    def held(self) -> HeldPart:
        """The part as the claim has it."""
        return self.entry.claim.held[self.code.nth - 1]


class JudgedPart(NamedTuple):
    """A held part of a list: its row, how it is kept, and the rule that lets it go, if one does."""

    row: ListedPart
    keeping: Keeping
    let_go: LetGo | None


def at_hand(desk: Desk, terms: TermsInForce, said: str) -> PartFound:
    """The part a code names.

    Raises:
        BadInput: it is no code, or the claim's number alone does not say which part.
        NotFound: there is no such claim, or it holds no such part.
        WrongState: it lies in another shop.
    """
    code = _code(desk, said)
    entry = desk.book.get(code.claim)
    # a part is moved, tagged and sent where it lies
    desk.shops.must_be_ours(code.claim, entry.standing.shop)
    # the day it is held until follows from the plan of today, as its tag would say if it were printed now
    tag = desk.assess(entry).tags[code.nth - 1]
    return PartFound(entry, code, tag, _keeping_of(entry, code.nth, terms, tag.hold_until))


def _code(desk: Desk, said: str) -> PartCode:
    from claimpack.core.claims.part_codes import PartCode, part_code
    from claimpack.errors import BadInput, NotFound

    code = part_code(said)
    held = desk.book.get(code.claim).claim.held
    if not held or code.nth > len(held):
        raise NotFound(
            f"claim {code.claim} holds {how_many(len(held), 'part')}"
            + (f", so there is no {code}" if code.nth else ""),
            "A tag's code is the claim's number, a slash and the part's place in the claim.",
            f"See: claimpack hold find {code.claim}",
        )
    if not code.nth and len(held) > 1:
        raise BadInput(
            f"claim {code.claim} holds {len(held)} parts, so its number alone does not say which",
            ", ".join(f"{code.claim}/{nth} {part.part}" for nth, part in enumerate(held, start=1)),
            "Give the code on the tag.",
        )
    # a claim with one part is a code by itself
    return PartCode(code.claim, code.nth or 1)


def _keeping_of(entry: Entry, nth: int, terms: TermsInForce, until: date | None) -> Keeping:
    from claimpack.core.holding.release_rules import Keeping
    from claimpack.core.payment.payment_dates import inspect_by

    standing, in_force = entry.standing, terms.of(entry.claim)
    inspect = inspect_by(standing.filed, standing.received, in_force)
    cites, unread = (in_force.cites, in_force.unread) if in_force else ("", "")
    return Keeping(standing.part(nth).state, until, inspect, cites, standing.state == "withdrawn", unread)


def listed(rows: Iterable[ListedPart], terms: TermsInForce, today: date) -> list[JudgedPart]:
    """Held parts with what may be done with each: called back first, then what may go, then by shelf."""
    from claimpack.core.holding.release_rules import Keeping, lets_go
    from claimpack.core.payment.payment_dates import inspect_by

    found = []
    for row in rows:
        in_force = terms.of(row)
        inspect = inspect_by(row.filed, row.received, in_force)
        cites, unread = (in_force.cites, in_force.unread) if in_force else ("", "")
        keeping = Keeping(row.state, row.keep_until, inspect, cites, row.claim_state == "withdrawn", unread)
        found.append(JudgedPart(row, keeping, lets_go(keeping, today)))
    return sorted(found, key=_first_to_do)


def _first_to_do(part: JudgedPart) -> tuple[int, str, str, str, int]:
    called_back = part.row.state == "called back"
    rank = 0 if called_back else 1 if may_be_scrapped(part) else 2
    # without a day it comes after all that have one
    send_by = str(part.row.send_by or "9999") if called_back else ""
    return rank, send_by, part.row.shelf, part.row.claim, part.row.nth


def as_json(part: JudgedPart) -> dict[str, Any]:
    """A held part as scripts read it."""
    from claimpack.core.holding.release_rules import kept_until

    row = part.row
    return {
        "code": str(row.code),
        "claim": row.claim,
        "index": row.nth,
        "part": row.part,
        "number": row.number,
        "maker": row.maker,
        "model": row.model,
        "serial": row.serial,
        "shelf": row.shelf,
        "state": row.state,
        "since": _iso(row.since),
        "send_by": _iso(row.send_by),
        "keep_until": _iso(kept_until(part.keeping)),
        "may_go": part.let_go is not None,
        "better_kept": doubt_of(part) or None,
        "rule": part.let_go.rule if part.let_go else None,
        "missing_since": _iso(row.missing),
    }


def _iso(day: date | None) -> str | None:
    return day.isoformat() if day else None


def doubt_of(part: JudgedPart) -> str:
    """Why a part that may go is better kept; empty where nothing speaks so."""
    from claimpack.core.holding.release_rules import worth_keeping

    return worth_keeping(part.let_go, part.row.claim_state, *money_open(part.row)) if part.let_go else ""


def doubt_in_short(part: JudgedPart) -> str:
    """The same for a table that says already what the doubt is about."""
    from claimpack.core.holding.release_rules import not_settled

    return not_settled(part.row.claim_state, *money_open(part.row)) if doubt_of(part) else ""


def money_open(claim: ListedPart | Standing) -> tuple[str, str]:
    """What is outstanding, and what was refused and is not decided, in words; empty where nothing is."""
    from claimpack.core.values.money import in_money

    outstanding, refused = (
        in_money(amount, claim.currency) if amount else "" for amount in (claim.outstanding, claim.refused_rest)
    )
    return outstanding, refused


def may_be_scrapped(part: JudgedPart) -> bool:
    """Whether a rule lets the part go, and nothing speaks for keeping it."""
    return part.let_go is not None and not doubt_of(part)


def state_shown(part: JudgedPart) -> str:
    """The state a list on paper shows: of a part held, whether it may go or is better kept."""
    if part.row.state != "held" or part.let_go is None:
        return part.row.state
    return "better kept" if doubt_of(part) else "may go"


def what_to_do(part: JudgedPart) -> str:
    """What a list says under a part: what to do with it, or that a count missed it; empty where it only waits."""
    row, said = part.row, []
    if row.missing:
        said.append(f"not found when the shelf was counted on {row.missing}: look for it")
    if row.state == "called back":
        said.append(f"the maker called it back: send it{f' by {row.send_by}' if row.send_by else ''}")
    elif part.let_go:
        said.append(_to_do_with(part, part.let_go))
    return "; ".join(said)


def mark_under(part: JudgedPart, today: date) -> str:
    """The mark of what a list says under a part: another where the day to send it back is over."""
    from claimpack.core.shelf.part_steps import late_sending

    is_late = part.row.state == "called back" and late_sending(part.row.send_by, today)
    return "fail" if is_late else "todo"


def _to_do_with(part: JudgedPart, let_go: LetGo) -> str:
    from claimpack.core.holding.release_rules import WITHDRAWN

    doubt = doubt_of(part)
    if doubt:
        return f"better kept: {doubt}"
    why = " (say why: --because)" if let_go.rule == WITHDRAWN else ""
    return f"it may be scrapped{why}: {let_go.because}"


def last_days(parts: Sequence[JudgedPart]) -> list[str]:
    """The last day each part must be kept, as a list shows it."""
    from claimpack.core.holding.release_rules import kept_until

    return [str(kept_until(part.keeping) or ("" if part.row.state != "held" else "its release")) for part in parts]
