"""What a change to a claim altered, told key by key."""

from __future__ import annotations

from typing import TYPE_CHECKING

from claimpack.core.values.words import some_lines

if TYPE_CHECKING:
    from collections.abc import Sequence

    from claimpack.commands.desk.changing import Changing
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.editing.changes import Difference
    from claimpack.core.verdict.matching import NearName

_MOST_KEYS = 20


def tell_changes(say: Say, claim: str, changed: Sequence[Difference], *, json: bool) -> None:
    """Every key that was changed, old -> new."""
    if json:
        say.document({"claim": claim, "changed": [difference._asdict() for difference in changed]})
        return
    if not changed:
        say.note(f"{claim}: nothing changed.")
    for difference in changed:
        before, after = difference.before or "nothing", difference.after or "nothing"
        say.item("·", f"{difference.key}: {before} -> {after}", indent=0)


def facts_of(changed: Sequence[Difference]) -> dict[str, str]:
    """What the history says of a change: the keys, so that nobody has to compare two versions to find them."""
    return {"changed": ", ".join(some_lines([difference.key for difference in changed], _MOST_KEYS))}


def note_verdict(say: Say, desk: Desk, changing: Changing) -> None:
    """After a change: another answer to whether the claim is covered, files that are not kept, names mistyped."""
    from claimpack.core.verdict.matching import near_names

    number, before, after = changing.claim.number, changing.entry.summary.verdict, changing.verdict
    if before != after:
        say.note(f"{number} was {before}, and is {after} now. Why: claimpack check {number}")
    _note_not_kept(say, changing)
    _note_odd_serials(say, desk, changing)
    note_near_names(say, number, near_names(changing.claim, desk.plans))


def note_begun(say: Say, desk: Desk, number: str) -> None:
    """After work that was written down: that the maker's approval comes first, where it is lacking."""
    from claimpack.core.payment.next_step import before_the_work

    for said in before_the_work(desk.assess(desk.book.get(number))):
        say.note(said)


def _note_not_kept(say: Say, changing: Changing) -> None:
    """Files that the claim names since the change, and the book does not keep."""
    from claimpack.core.judging.conditions.missing_items import files_lacking, not_kept

    known = not_kept(changing.entry.claim, [file.path for file in changing.entry.files])
    new = not_kept(changing.claim, [*known, *(file.path for file in changing.files)])
    for lacking in files_lacking(changing.claim, new):
        say.note(f"{lacking.what}: {lacking.why}")


def _note_odd_serials(say: Say, desk: Desk, changing: Changing) -> None:
    """Serial numbers that have not the form the plan gives since the change."""
    from claimpack.core.judging.conditions.serial_forms import odd_serials

    known = odd_serials(changing.entry.claim, desk.plans)
    for odd in odd_serials(changing.claim, desk.plans):
        if odd not in known:
            say.paragraph(f"! {odd}", hanging=2)


def note_near_names(say: Say, number: str, names: Sequence[NearName]) -> None:
    """Names that no plan knows, and how to correct each."""
    for name in names:
        say.note(f"Did you mean {name.near!r}? Correct it: claimpack set {number} {name.key} {name.near!r}")
