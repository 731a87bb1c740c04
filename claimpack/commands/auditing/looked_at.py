"""Claims gathered for an audit, looked at by its rules, and each finding in one line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.auditing.audited import AuditedClaim, Edit, Irregularity, Scope
    from claimpack.core.auditing.report.audit import AuditReport
    from claimpack.core.auditing.rule import AuditRule
    from claimpack.core.events.events import Event


def audited(desk: Desk, say: Say, chosen: Sequence[AuditRule], scope: Scope) -> AuditReport:
    """What the rules find in the claims of the book."""
    from claimpack.commands.auditing.spilled import traces_of
    from claimpack.core.auditing.audited import Measures
    from claimpack.core.auditing.report.audit import audit as go_through

    with traces_of(desk.book.count()) as traces:
        claims = _audited(desk, say, chosen, scope)
        return go_through(claims, Measures(desk.day), chosen, scope.holds, traces)


def _audited(desk: Desk, say: Say, chosen: Sequence[AuditRule], scope: Scope) -> Iterator[AuditedClaim]:
    """Every claim of the book with what the rules go by."""
    from claimpack.commands.auditing.house import Houses
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.auditing.audited import AuditedClaim
    from claimpack.core.events.beside import EventsBeside
    from claimpack.core.steps.filing import filing_course

    terms, houses, histories = TermsInForce(desk, say), Houses(desk), EventsBeside(desk.book.histories())
    compares_edits = any(rule.id == "changed-before-filing" for rule in chosen)
    proves_packets = any(rule.id == "packet-changed" for rule in chosen)
    with say.progress("Auditing", desk.book.count()) as advance:
        for entry in desk.book.entries():
            dates, events = entry.claim.dates, histories.of(entry.claim.number)
            # judged by what its own shop goes by; what nobody knows here finds nothing
            shop = entry.standing.shop
            theirs, settings = desk.shops.desk_of(shop), desk.shops.settings_of(shop)
            summary = desk.summary_today(entry)
            audited = AuditedClaim(
                claim=entry.claim,
                standing=entry.standing,
                summary=summary,
                plan=theirs.plan_by_id.get(summary.plan) if theirs else None,
                terms=terms.of(entry.claim),
                retail=settings.retail(dates.repaired or dates.presented),
                house=houses.of(shop),
                files=entry.files,
                course=filing_course(events),
            )
            if scope.holds(audited):
                at_hand = theirs if proves_packets and not audited.house.vault_gone else None
                damage = _packet_damage(at_hand, entry) if at_hand else ""
                edits = _edits(desk, events) if compares_edits else ()
                audited = audited._replace(packet_damage=damage, edits=edits)
            yield audited
            advance()


def _edits(desk: Desk, events: Sequence[Event]) -> Sequence[Edit]:
    """What was changed of a claim in the last days before it was filed."""
    from claimpack.core.auditing.audited import Measures
    from claimpack.core.auditing.late_changes import late_change, late_edits, replaced

    late = late_change(events, Measures(desk.day).late_change_days)
    if late is None:
        return ()
    claim, (*between, (on, last)) = events[0].claim, late.changes
    before, filed = desk.book.revision(claim, late.before), desk.book.revision(claim, last)
    # most claims are filled in and not changed, so that the revisions between need not be read
    if not replaced(before, filed):
        return ()
    steps = [(day, desk.book.revision(claim, revision)) for day, revision in between]
    return tuple(late_edits(before, [*steps, (on, filed)]))


def _packet_damage(desk: Desk, entry: Entry) -> str:
    packet = entry.standing.packet
    if not packet or packet in desk.book.erased(entry.claim.number):
        return ""
    return next((wrong for _, wrong in desk.vault.damaged([packet])), "")


def one_line(each: Irregularity) -> str:
    """A finding with its evidence; the claims first, where its sentence does not begin by them."""
    from claimpack.core.auditing.audited import listed

    claims = listed(each.claims)
    said = each.said if each.said.startswith(f"Claims {claims} ") else f"{claims}: {each.said}"
    evidence = "; ".join(f"{name}: {fact}" for name, fact in each.evidence_said.items())
    return said + (f" · {evidence}" if evidence else "")
