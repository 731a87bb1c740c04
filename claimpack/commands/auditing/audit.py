"""`claimpack audit`: what an auditor would ask about, by rule."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.auditing.audit_sample import conclude, draw_sample
from claimpack.commands.auditing.looked_at import audited, one_line
from claimpack.commands.auditing.settle import settle
from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Argument, Context, Family, Option
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.auditing.audited import Irregularity
    from claimpack.core.auditing.report.at_risk import AtRisk
    from claimpack.core.auditing.report.audit import AuditReport
    from claimpack.core.auditing.report.settled import Settled
    from claimpack.core.auditing.report.wants import NotAsked
    from claimpack.core.auditing.rule import AuditRule


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
    rule: Annotated[list[str] | None, Option(metavar="ID", help="Go by this rule alone (repeatable).")] = None,
    rules: Annotated[bool, Option("--rules", help="List every rule, and whether it is on.")] = False,
    maker: Annotated[str, Option(help="Only claims on this maker.")] = "",
    since: Annotated[str, Option(metavar="DATE", help="Claims filed, or brought in, since that day.")] = "",
    with_settled: Annotated[bool, Option("--settled", help="Tell the settled findings, too.")] = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Look through claims by every rule; the default.

    What is found is a question to begin a conversation with: each rule says how an honest claim could look like that.
    """
    from claimpack.commands.desk.desk import Desk, note_past
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.options import a_date
    from claimpack.commands.desk.say import Say
    from claimpack.core.auditing.audited import Scope
    from claimpack.core.auditing.report.audit import chosen_rules, looked_by
    from claimpack.core.auditing.report.same_fact import told_by
    from claimpack.core.auditing.report.settled import MARK, settled_in, split

    say, desk = Say(context.obj), Desk(context.obj, today)
    desk.must_know_maker(maker)
    chosen = chosen_rules(rule or (), desk.shop.settings.audit_off)
    if rules:
        return _list_rules(say, chosen, json=json)
    named = [desk.book.get(number_of(claim)) for claim in claims or ()]
    for entry in () if context.obj.all_shops else named:
        desk.shops.must_be_ours(entry.claim.number, entry.standing.shop)
    scope = Scope(frozenset(entry.claim.number for entry in named), maker, a_date(since, "--since") if since else None)
    note_past(desk, say)
    report = audited(desk, say, looked_by(chosen, desk.shop.settings.audit_off) if rule else chosen, scope)
    unsettled, done = split(report.found, settled_in(reversed(desk.book.told(MARK))))
    if rule:
        ids = {each.id for each in chosen}
        unsettled = tuple(part for each in unsettled for part in told_by(each, ids))
        done = tuple((part, how) for each, how in done for part in told_by(each, ids))
    report = report.of(chosen)._replace(found=unsettled)
    money = _money(desk, report)
    if json:
        say.document(_as_json(report, desk, done, money))
    else:
        _tell(say, desk, report, money, settled=bool(done))
        _tell_settled(say, done, listed=with_settled)
    return report.exit_code


def _list_rules(say: Say, chosen: Sequence[AuditRule], *, json: bool) -> int:
    from claimpack.core.auditing.report.audit import AUDIT_RULES
    from claimpack.core.auditing.report.wants import goes_by

    listed = [
        {
            "id": rule.id,
            "says": rule.says,
            "source": rule.source,
            "on": rule in chosen,
            "goes_by": goes_by(rule.id),
        }
        for rule in AUDIT_RULES
    ]
    if json:
        say.document({"rules": listed})
        return 0
    by = {rule.id: f" Goes by: {', '.join(goes_by(rule.id))}." if goes_by(rule.id) else "" for rule in AUDIT_RULES}
    rows = [(rule.id, "on" if rule in chosen else "off", f"{rule.says}{by[rule.id]}") for rule in AUDIT_RULES]
    say.table(rows, indent=0)
    say.note('Switch one off in shop.toml: audit_off = ["ID"]')
    return 0


def _money(desk: Desk, report: AuditReport) -> Mapping[str, AtRisk]:
    """The money on the claims that findings name, by number."""
    from claimpack.core.auditing.report.at_risk import claims_at_risk, on_claim

    named = desk.book.entries(sorted(claims_at_risk(report.found)))
    return {entry.claim.number: on_claim(entry.standing) for entry in named}


def _at_risk(found: Sequence[Irregularity], money: Mapping[str, AtRisk]) -> dict[str, str]:
    """What findings put at risk, by currency, for scripts."""
    from claimpack.core.auditing.report.at_risk import at_risk
    from claimpack.core.values.money import coins, plain

    return {currency: plain(coins(amount, currency)) for currency, amount in at_risk(found, money).items()}


def _at_risk_said(found: Sequence[Irregularity], money: Mapping[str, AtRisk], said: str) -> str:
    """The same for people, where there is any."""
    from claimpack.core.auditing.report.at_risk import at_risk
    from claimpack.core.reporting.findings import amounts_said

    amounts = at_risk(found, money)
    return f" · {said.format(amounts_said(amounts))}" if amounts else ""


def _as_json(
    report: AuditReport,
    desk: Desk,
    done: Sequence[tuple[Irregularity, Settled]],
    money: Mapping[str, AtRisk],
) -> dict[str, Any]:
    exceptions = [_told(each) | {"at_risk": _at_risk([each], money)} | _shops(desk, each) for each in report.found]
    totals = {weight: sum(each.weight == weight for each in report.found) for weight in ("serious", "look")}
    return {
        "today": desk.day.isoformat(),
        "claims": report.claims,
        "looked_at": report.looked_at,
        "rules": report.asked,
        "exceptions": exceptions,
        "totals": totals,
        "at_risk": _at_risk(report.found, money),
        "by_rule": Counter(each.rule for each in report.found),
        "not_compared": [{"rule": each.rule, "what": each.what} for each in report.not_compared],
        "not_asked": [_told_not_asked(each) for each in report.not_asked],
        "settled": [_told(each) | {"on": f"{how.on}", "who": how.who, "because": how.why} for each, how in done],
    }


def _told_not_asked(each: NotAsked) -> dict[str, Any]:
    """Rules that were not asked of claims, or in part alone, and what was wanting, for scripts."""
    told = {"shop": each.shop, "claims": each.claims, "lacks": each.lacks, "what": each.what}
    return {**told, "rules": each.rules, "in_part": each.in_part}


def _tell_not_asked(say: Say, report: AuditReport) -> None:
    """The same for people: what is out of reach in a line each, what shops have not told in one for all of it."""
    from claimpack.commands.desk.shops import shop_said

    several = say.world.all_shops
    for each in report.not_asked:
        if not each.is_setting:
            whose = f", {shop_said(each.shop)}" if several else ""
            rules = (("Not asked", each.rules), ("Asked in part", each.in_part))
            listed = (f"{name}: {', '.join(some)}." for name, some in rules if some)
            say.item(say.mark("unknown"), " ".join((f"{how_many(each.claims, 'claim')}{whose}: {each.what}", *listed)))
    untold = [each for each in report.not_asked if each.is_setting]
    for shop in dict.fromkeys(each.shop for each in untold):
        whose = f" of {shop_said(shop)} claims" if several else ""
        of_shop = [each for each in untold if each.shop == shop]
        whole, part = (
            _by_rule([(rule, each.named or each.lacks) for each in of_shop for rule in getattr(each, name)])
            for name in ("rules", "in_part")
        )
        said = f"Not asked{whose} for want of what shop.toml or a parts list would tell: {whole}." if whole else ""
        in_part = f"Asked in part{'' if whole else whose}: {part}." if part else ""
        say.item("·", f"{said} {in_part}".strip())


def _by_rule(untold: Sequence[tuple[str, str]]) -> str:
    """Rules, each with what is not told that it goes by."""
    named = {rule: dict.fromkeys(key for each, key in untold if each == rule) for rule, _ in untold}
    return ", ".join(f"{rule} ({', '.join(keys)})" for rule, keys in named.items())


def _shops(desk: Desk, each: Irregularity) -> dict[str, list[str]]:
    """Whose the claims of a finding are, each once; nothing where one shop's claims alone are looked at."""
    return {} if desk.shops.told is None else {"shops": list(dict.fromkeys(map(desk.shops.whose, each.claims)))}


def _told(each: Irregularity) -> dict[str, Any]:
    told = {"rule": each.rule, "weight": each.weight, "claims": each.claims, "what": each.what}
    return {**told, "evidence": each.all_evidence, "also": each.also, "innocent": each.innocent}


_WEIGHTS = (("serious", "Serious", "fail"), ("look", "Worth a look", "unknown"))


_NOTHING = {
    "all": ("NOTHING {}FOUND", "good"),
    "in part": ("NOTHING {}FOUND, BUT NOT ALL LOOKED AT", "wait"),
    "nothing": ("NOTHING LOOKED AT", "wait"),
}
"""What is said where nothing was found, by how much was looked at."""


def _tell(say: Say, desk: Desk, report: AuditReport, money: Mapping[str, AtRisk], *, settled: bool) -> None:
    found = report.found
    risk = _at_risk_said(found, money, "{} at risk")
    looked_at = f"{how_many(report.claims, 'claim')}, {how_many(len(report.asked), 'rule')}"
    what, style = (how_many(len(found), "EXCEPTION", "EXCEPTIONS"), "bad") if found else _NOTHING[report.looked_at]
    # what was found and settled was found all the same
    say.answer(f"{say.styled(what.format('NEW ' if settled else ''), style)}  {looked_at}{risk}")
    for each in report.not_compared:
        say.item(say.mark("unknown"), f"{each.rule}: {each.said}")
    _tell_not_asked(say, report)
    if not found:
        return
    for weight, title, mark in _WEIGHTS:
        some = [each for each in found if each.weight == weight]
        if some:
            say.heading(f"{title}: {len(some)}{_at_risk_said(some, money, '{} at risk')}")
        for rule in dict.fromkeys(each.rule for each in some):
            _tell_rule(say, desk, rule, [each for each in some if each.rule == rule], mark, money)
    every = " --all-shops" if say.world.all_shops else ""
    settle_it = f"claimpack audit settle RULE CLAIM{every}"
    say.note(f"What a rule looks for: claimpack audit --rules; what is in order: {settle_it}")


def _tell_rule(
    say: Say, desk: Desk, rule: str, found: Sequence[Irregularity], mark: str, money: Mapping[str, AtRisk]
) -> None:
    say.answer(f"  {say.styled(f'{rule}: {len(found)}', 'strong')}")
    say.item(" ", f"It may be innocent: {found[0].innocent}")
    for each in found:
        whose = ", ".join(shop for shops in _shops(desk, each).values() for shop in shops)
        told = one_line(each) + _at_risk_said([each], money, "at risk: {}")
        say.item(say.mark(mark), f"{whose} · {told}" if whose else told, indent=4)


def _tell_settled(say: Say, done: Sequence[tuple[Irregularity, Settled]], *, listed: bool) -> None:
    if not done:
        return
    if not listed:
        every = " --all-shops" if say.world.all_shops else ""
        say.note(f"{how_many(len(done), 'finding')} settled before: claimpack audit --settled{every}")
        return
    say.heading(f"Settled: {len(done)}")
    for each, how in done:
        say.item(say.mark("pass"), f"{each.rule} · {one_line(each)} Settled {how.on} by {how.who}: {how.why}")


audit_app.command()(settle)
audit_app.command("sample")(draw_sample)
audit_app.command()(conclude)
