"""`claimpack report`: the manager report on paper, as a page, and as lists."""

from __future__ import annotations

from itertools import chain, islice
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Context, Option

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.holding.held_by_age import ShelvedPart
    from claimpack.core.payment.pending import Pending
    from claimpack.core.plans.terms import Terms
    from claimpack.core.reporting.manager_report import About, Gathered
    from claimpack.core.reporting.reported import ReportedClaim
    from claimpack.printing.papers import Page
    from claimpack.reports.manager.section import Report


def report(
    context: Context,
    out: Annotated[Path, Option("--out", metavar="DIR", help="Where the files go.")] = Path("report"),
    first: Annotated[str, Option("--from", metavar="DATE", help="Look back to this day; default: to the first.")] = "",
    last: Annotated[str, Option("--to", metavar="DATE", help="Look back from this day; default: today.")] = "",
    maker: Annotated[str, Option(help="Only the claims on this maker.")] = "",
    pdf: Annotated[bool, Option("--pdf", help="The report on paper (without any of these: all four).")] = False,
    html: Annotated[bool, Option("--html", help="One page for a browser.")] = False,
    csv: Annotated[bool, Option("--csv", help="Each table as a CSV list.")] = False,
    xlsx: Annotated[bool, Option("--xlsx", help="One spreadsheet.")] = False,
    paper: Annotated[str, Option("--paper", metavar="letter|legal|a4", help="The paper.")] = "letter",
    json: Json = False,
    today: Today = "",
) -> int:
    """Write the manager's report: page, PDF, lists."""
    from claimpack.commands.auditing.spilled import traces_of
    from claimpack.commands.desk.desk import Desk, note_past
    from claimpack.commands.desk.options import a_date
    from claimpack.commands.desk.say import Say
    from claimpack.core.reporting.manager_report import About, manager_report
    from claimpack.core.reporting.reported import days_between, of_maker
    from claimpack.core.reporting.three_amounts import as_json
    from claimpack.files import write_folder
    from claimpack.printing.papers import page_of
    from claimpack.reports.manager.sections import report_of

    say, desk, page = Say(context.obj), Desk(context.obj, today), page_of(paper)
    since, until = a_date(first, "--from") if first else None, a_date(last, "--to") if last else None
    settings, shop_id = desk.shop.settings, "" if context.obj.all_shops else desk.shop_id
    days = days_between(since, until, desk.day)
    claims = of_maker(_claims(desk, say), maker)
    # the first of them tells the maker's name as it is shown
    first_claims = list(islice(claims, 1))
    whose, currency = first_claims[0].maker if maker else "", settings.currency or ""
    about = About(desk.shops.name_shown, desk.day, days, whose, settings.ageing, _beside(desk), currency, shop_id)
    with traces_of(desk.book.count()) as traces:
        gathered = _gathered(desk, say, about, chain(first_claims, claims))._replace(
            whose=desk.shops.told, undated=desk.shops.undated
        )
        whole = manager_report(gathered, about, traces)
    drawn = report_of(whole)
    kinds = {"pdf": pdf, "html": html, "csv": csv, "xlsx": xlsx}
    note_past(desk, say)
    contents = _contents(say, drawn, page, kinds)
    folder = context.obj.path(out)
    write_folder(folder, contents)
    if json:
        length, head = desk.book.chain_end()
        told = _document(drawn, about, [str(folder / name) for name in contents])
        beside = {
            "three_amounts": as_json(whole.amounts, desk.shops.told, desk.shops.undated),
            "history": {"events": length, "hash": head},
        }
        say.document(told | beside)
    else:
        _tell(say, drawn, [str(folder / name) for name in contents])
    return 0


def _beside(desk: Desk) -> tuple[str, ...]:
    """What is said of the book itself."""
    from claimpack.book.keeping.backups import last_backup
    from claimpack.core.reporting.backing_up import backup_remark, head_told

    length, head = desk.book.chain_end()
    undated = ", ".join(shop or "no shop's claims" for shop in desk.shops.undated)
    unknown = f"Terms not known here, so that nothing is dated or told as late: {undated}." if undated else ""
    said = (unknown, head_told(length, head) if length else "", backup_remark(last_backup(desk.book), length, desk.day))
    return tuple(sentence for sentence in said if sentence)


def _gathered(desk: Desk, say: Say, about: About, claims: Iterable[ReportedClaim]) -> Gathered:
    from claimpack.book.tables.entries import Wanted
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.commands.manager.three_amounts import watched_now
    from claimpack.core.payment.refused_rests import refused_rests
    from claimpack.core.reporting.manager_report import Gathered

    in_force = TermsInForce(desk, say)
    pending, terms = _pending(desk, in_force, about)
    in_part = desk.book.claims(Wanted(refused_rest=True, maker=about.maker))
    terms_of_rests = in_force.by_claim((claim.number, claim) for claim in in_part)
    rests, terms = refused_rests(in_part, terms_of_rests), {**terms, **terms_of_rests}
    watched = watched_now(desk, in_force, about.maker)
    return Gathered(claims, pending, _held(desk, in_force, about.maker), terms, rests, watched)


def _claims(desk: Desk, say: Say) -> Iterator[ReportedClaim]:
    """Every claim as reports count it, one after the other, with what is lost of it and what makers answered."""
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.events.beside import EventsBeside
    from claimpack.core.payment.silence import standing_as_of
    from claimpack.core.reporting.losses import Whose, losses_of
    from claimpack.core.reporting.reported import reported
    from claimpack.core.reporting.work import work_of

    in_force = TermsInForce(desk, say)
    told = EventsBeside(desk.book.histories(("answer", "again")))
    with say.progress("Reading claims", desk.book.count()) as advance:
        for entry in desk.book.entries():
            claim, terms, events = entry.claim, in_force.of(entry.claim), told.of(entry.claim.number)
            standing = standing_as_of(entry.standing, terms, desk.day)
            shop, theirs = standing.shop, desk.shops.desk_of(standing.shop)
            retail = desk.shops.settings_of(shop).retail(claim.dates.repaired or desk.day)
            plan = theirs.plan_by_id.get(entry.summary.plan) if theirs else None
            one = reported(claim, standing, entry.summary, work_of(claim, plan, retail))
            is_chased = any(event.what == "chased" for event in events)
            whose = Whose(one.number, one.maker, terms, is_chased=is_chased)
            yield one._replace(
                losses=tuple(losses_of(whose, standing, entry.summary, desk.day)),
                answers=tuple(event for event in events if "answer" in event.facts),
            )
            advance()


def _pending(desk: Desk, in_force: TermsInForce, about: About) -> tuple[list[Pending], dict[str, Terms]]:
    from claimpack.book.tables.entries import Wanted
    from claimpack.core.events.states import PENDING
    from claimpack.core.payment.pending import pending

    claims = desk.book.claims(Wanted(states=PENDING, maker=about.maker))
    terms = dict(in_force.by_claim((claim.number, claim) for claim in claims))
    return pending(claims, terms, desk.day, about.ageing), terms


def _held(desk: Desk, in_force: TermsInForce, maker: str) -> list[ShelvedPart]:
    from claimpack.book.held import HeldWanted
    from claimpack.commands.manager.held_parts import doubt_in_short, listed
    from claimpack.core.holding.held_by_age import ShelvedPart
    from claimpack.core.holding.release_rules import kept_until

    return [
        ShelvedPart(
            code=str(part.row.code),
            part=part.row.part,
            maker=part.row.maker,
            model=part.row.model,
            shelf=part.row.shelf,
            state=part.row.state,
            since=part.row.since,
            send_by=part.row.send_by,
            keep_until=kept_until(part.keeping),
            missing=part.row.missing,
            rule=part.let_go.rule if part.let_go else "",
            because=part.let_go.because if part.let_go else "",
            doubt=doubt_in_short(part),
            terms_unread=part.keeping.terms_unread if part.row.filed else "",
        )
        for part in listed(desk.held(HeldWanted(maker=maker)), in_force, desk.day)
    ]


def _contents(say: Say, drawn: Report, page: Page, kinds: dict[str, bool]) -> dict[str, bytes]:
    """The files by name; a spreadsheet that nobody asked for by name is left out where it cannot be written."""
    from claimpack.errors import NotInstalled
    from claimpack.lists.ledger_sheets import as_csv, as_workbook
    from claimpack.reports.manager.sheets import report_sheets

    every = not any(kinds.values())
    name = f"report-{drawn.today}"
    contents: dict[str, bytes] = {}
    if kinds["pdf"] or every:
        from claimpack.reports.manager.pdf import report_pdf

        contents[f"{name}.pdf"] = report_pdf(drawn, page)
    if kinds["html"] or every:
        from claimpack.reports.manager.page import report_page

        contents[f"{name}.html"] = report_page(drawn)
    sheets = report_sheets(drawn)
    if kinds["csv"] or every:
        contents |= {f"{name}-{table}.csv": as_csv(sheet, bom=True) for table, sheet in sheets.items()}
    if (kinds["xlsx"] or every) and sheets:
        try:
            contents[f"{name}.xlsx"] = as_workbook(sheets.values(), drawn.today)
        except NotInstalled as error:
            if not every:
                raise
            say.note(f"No spreadsheet: {error.what}. {error.do}")
    return contents


def _document(drawn: Report, about: About, files: Sequence[str]) -> dict[str, Any]:
    from claimpack.reports.manager.sheets import report_as_json

    return {
        "today": drawn.today.isoformat(),
        "from": about.days.first.isoformat() if about.days.first else None,
        "to": about.days.last.isoformat(),
        "maker": about.maker or None,
        "files": list(files),
        "sections": report_as_json(drawn),
    }


def _tell(say: Say, drawn: Report, files: Sequence[str]) -> None:
    for section in drawn.sections:
        say.item("·", f"{section.heading}: {section.finding}", indent=0)
    say.answer()
    for name in files:
        say.path(Path(name))
