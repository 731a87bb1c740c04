"""`claimpack audit`: what an auditor would ask about, by rule."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.auditing.audit_sample import conclude, draw_sample
from claimpack.commands.auditing.settle import settle
from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Argument, Context, Family, Option
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.auditing.audited import AuditedClaim, Edit, Irregularity, Scope
    from claimpack.core.auditing.report.audit import AuditReport
    from claimpack.core.auditing.report.settled import Settled
    from claimpack.core.auditing.rule import AuditRule
    from claimpack.core.events.events import Event


audit_app = Family(
    default="look",
    help="Find what an auditor would ask about; draw a sample.",
    epilog="`claimpack audit`, alone or with a CLAIM, is `claimpack audit look`.",
)
"""The commands about audits."""


@audit_app.command()
def look(
    context: Context,
    claims: Annotated[list[str] | None, Argument(metavar="CLAIM", help="Claims of the book; default: all.")] = None,
    rule: Annotated[
        list[str] | None, Option(metavar="ID", help="Go by this rule alone (repeatable).", show_default=False)
    ] = None,
    rules: Annotated[bool, Option("--rules", help="List every rule, and whether it is on.")] = False,
    maker: Annotated[str, Option(help="Claims to this maker alone.", show_default=False)] = "",
    since: Annotated[
        str, Option(metavar="DATE", help="Claims filed, or brought in, since that day.", show_default=False)
    ] = "",
    with_settled: Annotated[bool, Option("--settled", help="Tell the settled findings, too.")] = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Look through claims by every rule; the default.

    What is found is a question to begin a conversation with: each rule says how an honest claim could look like that.
    """
    from claimpack.commands.desk.desk import Desk, note_past
    from claimpack.commands.desk.gather import a_date
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.core.auditing.audited import Scope
    from claimpack.core.auditing.report.audit import chosen_rules
    from claimpack.core.auditing.report.settled import MARK, settled_in, split

    say, desk = Say(context.obj), Desk(context.obj, today)
    desk.must_know_maker(maker)
    chosen = chosen_rules(rule or (), desk.shop.settings.audit_off)
    if rules:
        return _list_rules(say, chosen, json=json)
    numbers = [desk.book.get(number_of(claim)).claim.number for claim in claims or ()]
    scope = Scope(frozenset(numbers), maker, a_date(since, "--since") if since else None)
    note_past(desk, say)
    report = audited(desk, say, chosen, scope)
    found, done = split(report.found, settled_in(reversed(desk.book.told(MARK))))
    report = report._replace(found=found)
    if json:
        say.document(_as_json(report, chosen, desk.day, done))
    else:
        _tell(say, report, chosen)
        _tell_settled(say, done, listed=with_settled)
    return report.exit_code


def _list_rules(say: Say, chosen: Sequence[AuditRule], *, json: bool) -> int:
    from claimpack.core.auditing.report.audit import AUDIT_RULES

    listed = [{"id": rule.id, "says": rule.says, "source": rule.source, "on": rule in chosen} for rule in AUDIT_RULES]
    if json:
        say.document({"rules": listed})
        return 0
    say.table([(str(rule["id"]), "on" if rule["on"] else "off", str(rule["says"])) for rule in listed], indent=0)
    say.note('Switch one off in shop.toml: audit_off = ["ID"]')
    return 0


def audited(desk: Desk, say: Say, chosen: Sequence[AuditRule], scope: Scope) -> AuditReport:
    """What the rules find in the claims of the book."""
    from claimpack.commands.auditing.house import measures_of
    from claimpack.commands.auditing.spilled import SpilledTraces
    from claimpack.core.auditing.report.audit import audit as go_through

    claims, measures = _audited(desk, say, chosen, scope), measures_of(desk, say)
    if desk.book.count() <= _IN_MEMORY:
        return go_through(claims, measures, chosen, scope.holds)
    with SpilledTraces() as traces:
        return go_through(claims, measures, chosen, scope.holds, traces)


_IN_MEMORY = 5_000
"""Up to so many claims, what they leave to be compared is kept in memory."""


def _audited(desk: Desk, say: Say, chosen: Sequence[AuditRule], scope: Scope) -> Iterator[AuditedClaim]:
    """Every claim of the book with what the rules go by, one after the other."""
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.auditing.audited import AuditedClaim
    from claimpack.core.steps.filing import filing_course

    retail = desk.shop.settings.retail
    plans, terms, histories = desk.plan_by_id, TermsInForce(desk, say), _Histories(desk)
    compares_edits = any(rule.id == "changed-before-filing" for rule in chosen)
    proves_packets, without_plan = any(rule.id == "packet-changed" for rule in chosen), 0
    with say.progress("Auditing", desk.book.count()) as advance:
        for entry in desk.book.entries():
            dates, events = entry.claim.dates, histories.of(entry.claim.number)
            audited = AuditedClaim(
                claim=entry.claim,
                standing=entry.standing,
                summary=entry.summary,
                plan=plans.get(entry.summary.plan),
                terms=terms.of(entry.claim),
                retail=retail(dates.repaired or dates.presented),
                files=entry.files,
                course=filing_course(events),
            )
            if scope.holds(audited):
                without_plan += audited.plan is None and audited.is_with_the_maker
                damage = _packet_damage(desk, entry) if proves_packets else ""
                edits = histories.edits(events) if compares_edits else ()
                audited = audited._replace(packet_damage=damage, edits=edits)
            yield audited
            advance()
    if without_plan:
        say.note(
            f"{how_many(without_plan, 'filed claim')} without a plan within reach: not held against what a plan asks."
        )


class _Histories:
    """How each claim was filed and what was changed in it just before, claim by claim in the order of the book.

    The history is read beside the claims, so that it is never in memory as a whole.
    """

    def __init__(self, desk: Desk) -> None:
        from claimpack.core.auditing.audited import Measures

        self._book, self._days = desk.book, Measures(desk.day).late_change_days
        self._coming = desk.book.histories()
        self._passed: dict[str, list[Event]] = {}

    def of(self, number: str) -> list[Event]:
        """The events of a claim."""
        if number in self._passed:
            return self._passed.pop(number)
        for claim, events in self._coming:
            if claim == number:
                return events
            self._passed[claim] = events
        return []

    def edits(self, events: Sequence[Event]) -> Sequence[Edit]:
        """What was changed of a claim in the last days before it was filed."""
        from claimpack.core.auditing.late_changes import late_change, late_edits

        late = late_change(events, self._days)
        if late is None:
            return ()
        before, filed = (self._book.revision(events[0].claim, revision) for revision in (late.before, late.filed))
        return tuple(late_edits(before, filed, late.on))


def _packet_damage(desk: Desk, entry: Entry) -> str:
    packet = entry.standing.packet
    if not packet or packet in desk.book.erased(entry.claim.number):
        return ""
    return next((wrong for _, wrong in desk.vault.damaged([packet])), "")


def _as_json(
    report: AuditReport, chosen: Sequence[AuditRule], today: dt.date, done: Sequence[tuple[Irregularity, Settled]]
) -> dict[str, Any]:
    exceptions = [_told(each) for each in report.found]
    totals = {weight: sum(each.weight == weight for each in report.found) for weight in ("serious", "look")}
    rules = [rule.id for rule in chosen]
    return {
        "today": today.isoformat(),
        "claims": report.claims,
        "rules": rules,
        "exceptions": exceptions,
        "totals": totals,
        "by_rule": Counter(each.rule for each in report.found),
        "settled": [_told(each) | {"on": f"{how.on}", "who": how.who, "because": how.why} for each, how in done],
    }


def _told(each: Irregularity) -> dict[str, Any]:
    told = {"rule": each.rule, "weight": each.weight, "claims": each.claims, "what": each.what}
    return {**told, "evidence": each.evidence, "also": each.also, "innocent": each.innocent}


_WEIGHTS = (("serious", "Serious", "fail"), ("look", "Worth a look", "unknown"))


def _tell(say: Say, report: AuditReport, chosen: Sequence[AuditRule]) -> None:
    found = report.found
    looked_at = f"{how_many(report.claims, 'claim')}, {how_many(len(chosen), 'rule')}"
    if not found:
        say.answer(f"{say.styled('NOTHING FOUND', 'good')}  {looked_at}")
        return
    say.answer(f"{say.styled(how_many(len(found), 'EXCEPTION', 'EXCEPTIONS'), 'bad')}  {looked_at}")
    for weight, title, mark in _WEIGHTS:
        some = [each for each in found if each.weight == weight]
        if some:
            say.heading(f"{title}: {len(some)}")
        for rule in dict.fromkeys(each.rule for each in some):
            _tell_rule(say, rule, [each for each in some if each.rule == rule], mark)
    say.note("What a rule looks for: claimpack audit --rules; what is in order: claimpack audit settle RULE CLAIM")


def _tell_rule(say: Say, rule: str, found: Sequence[Irregularity], mark: str) -> None:
    say.item(" ", f"{rule}: {len(found)}. It may be innocent: {found[0].innocent}")
    for each in found:
        say.item(say.mark(mark), one_line(each), indent=4)


def one_line(each: Irregularity) -> str:
    """A finding with its evidence."""
    from claimpack.core.auditing.audited import listed

    evidence = "; ".join(f"{name}: {fact}" for name, fact in each.evidence.items() if fact)
    return f"{listed(each.claims)}: {each.what}" + (f" · {evidence}" if evidence else "")


def _tell_settled(say: Say, done: Sequence[tuple[Irregularity, Settled]], *, listed: bool) -> None:
    if not done:
        return
    if not listed:
        say.note(f"{how_many(len(done), 'finding')} settled before: claimpack audit --settled")
        return
    say.heading(f"Settled: {len(done)}")
    for each, how in done:
        say.item(say.mark("pass"), f"{each.rule} · {one_line(each)} Settled {how.on} by {how.who}: {how.why}")


audit_app.command()(settle)
audit_app.command("sample")(draw_sample)
audit_app.command()(conclude)
