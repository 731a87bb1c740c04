"""`claimpack audit`: what an auditor would ask about, by rule."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Argument, Context, Family, Option
from claimpack.commands.manager.audit_sample import conclude, draw_sample
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.auditing.audited import AuditedClaim, Irregularity, Scope
    from claimpack.core.auditing.report.audit import AuditReport
    from claimpack.core.auditing.rule import AuditRule
    from claimpack.core.steps.filing import FilingCourse


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
    today: Today = "",
    json: Json = False,
) -> int:
    """Look through claims by every rule; the default."""
    from claimpack.commands.desk.desk import Desk, note_past
    from claimpack.commands.desk.gather import a_date
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.core.auditing.audited import Measures, Scope
    from claimpack.core.auditing.report.audit import audit as go_through
    from claimpack.core.auditing.report.audit import chosen_rules

    say, desk = Say(context.obj), Desk(context.obj, today)
    desk.must_know_maker(maker)
    chosen = chosen_rules(rule or (), desk.shop.settings.audit_off)
    if rules:
        return _list_rules(say, chosen, json=json)
    numbers = [desk.book.get(number_of(claim)).claim.number for claim in claims or ()]
    scope = Scope(frozenset(numbers), maker, a_date(since, "--since") if since else None)
    note_past(desk, say)
    report = go_through(_audited(desk, say, chosen, scope), Measures(desk.day), chosen, scope.holds)
    if json:
        say.document(_as_json(report, chosen, desk.day))
    else:
        _tell(say, report, chosen)
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


def _audited(desk: Desk, say: Say, chosen: Sequence[AuditRule], scope: Scope) -> Iterator[AuditedClaim]:
    """Every claim of the book with what the rules go by, one after the other."""
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.auditing.audited import AuditedClaim
    from claimpack.core.steps.filing import NEVER_FILED

    retail = desk.shop.settings.retail
    plans, terms, courses = desk.plan_by_id, TermsInForce(desk, say), _courses(desk)
    proves_packets, without_plan = any(rule.id == "packet-changed" for rule in chosen), 0
    with say.progress("Auditing", desk.book.count()) as advance:
        for entry in desk.book.entries():
            dates = entry.claim.dates
            audited = AuditedClaim(
                claim=entry.claim,
                standing=entry.standing,
                summary=entry.summary,
                plan=plans.get(entry.summary.plan),
                terms=terms.of(entry.claim),
                retail=retail(dates.repaired or dates.presented),
                files=entry.files,
                course=courses.get(entry.claim.number, NEVER_FILED),
            )
            if scope.holds(audited):
                without_plan += audited.plan is None and audited.is_with_the_maker
                damage = _packet_damage(desk, entry) if proves_packets else ""
                audited = audited._replace(packet_damage=damage)
            yield audited
            advance()
    if without_plan:
        say.note(
            f"{how_many(without_plan, 'filed claim')} without a plan within reach: not held against what a plan asks."
        )


def _courses(desk: Desk) -> dict[str, FilingCourse]:
    """How every claim was filed, from the whole history."""
    from claimpack.core.steps.filing import NEVER_FILED, filing_course

    courses: dict[str, FilingCourse] = {}
    for event in desk.book.each_event():
        courses[event.claim] = filing_course((event,), courses.get(event.claim, NEVER_FILED))
    return courses


def _packet_damage(desk: Desk, entry: Entry) -> str:
    packet = entry.standing.packet
    if not packet or packet in desk.book.erased(entry.claim.number):
        return ""
    return next((wrong for _, wrong in desk.vault.damaged([packet])), "")


def _as_json(report: AuditReport, chosen: Sequence[AuditRule], today: dt.date) -> dict[str, Any]:
    exceptions = [
        {"rule": each.rule, "weight": each.weight, "claims": each.claims, "what": each.what, "evidence": each.evidence}
        for each in report.found
    ]
    totals = {weight: sum(each.weight == weight for each in report.found) for weight in ("serious", "look")}
    rules = [rule.id for rule in chosen]
    return {
        "today": today.isoformat(),
        "claims": report.claims,
        "rules": rules,
        "exceptions": exceptions,
        "totals": totals,
    }


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
        for each in some:
            _tell_one(say, each, mark)
    say.note("What a rule looks for: claimpack audit --rules")


def _tell_one(say: Say, each: Irregularity, mark: str) -> None:
    from claimpack.core.auditing.audited import listed

    say.item(say.mark(mark), f"{listed(each.claims)}: {each.what}")
    evidence = "; ".join(f"{name}: {fact}" for name, fact in each.evidence.items() if fact)
    say.item(" ", f"{each.rule}" + (f" · {evidence}" if evidence else ""), indent=4)


audit_app.command("sample")(draw_sample)
audit_app.command()(conclude)
