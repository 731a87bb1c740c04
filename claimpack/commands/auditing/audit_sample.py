"""`claimpack audit sample` and `audit conclude`: a random sample to look at, and what it says of all claims."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Context, Option
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from decimal import Decimal

    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.auditing.sampling import Sample
    from claimpack.core.steps.listed import ListedClaim
    from claimpack.reports.work_sheet import WorkSheet


class SheetPaper(StrEnum):
    """What a work sheet is printed on."""

    letter = "letter"
    legal = "legal"
    a4 = "a4"


def draw_sample(
    context: Context,
    confidence: Annotated[str, Option(metavar="PERCENT", help="How sure to be.")] = "95",
    tolerable: Annotated[str, Option(metavar="PERCENT", help="The share of wrong claims you could live with.")] = "5",
    seed: Annotated[
        str, Option(metavar="TEXT", help="Draw again as before; default: from the day and the claims.")
    ] = "",
    filed_from: Annotated[str, Option(metavar="DATE", help="Claims filed from that day on.")] = "",
    filed_to: Annotated[str, Option(metavar="DATE", help="Claims filed up to that day.")] = "",
    out: Annotated[
        Path | None,
        Option(metavar="FILE", help="The work sheet, .pdf or .csv; - for CSV on stdout."),
    ] = None,
    paper: Annotated[SheetPaper, Option(metavar="letter|legal|a4", help="The paper of the PDF.")] = SheetPaper.letter,
    today: Today = "",
    json: Json = False,
) -> int:
    """Draw a random sample of filed claims."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.named_files import answering_beside, ending_of, goes_to_stdout, write_named
    from claimpack.commands.desk.options import a_date
    from claimpack.commands.desk.say import Say
    from claimpack.core.auditing.sampling import draw, seed_of, tolerated_said

    say, desk = Say(answering_beside(context.obj, out, json, is_text=True)), Desk(context.obj, today)
    first = a_date(filed_from, "--filed-from") if filed_from else dt.date.min
    last = a_date(filed_to, "--filed-to") if filed_to else dt.date.max
    kind = ending_of(out, (".pdf", ".csv"), "The work sheet is printed, or filled in as a spreadsheet.")
    kind = ".csv" if goes_to_stdout(out) else kind
    by_number = {row.number: row for row in _population(desk, first, last)}
    sure, borne = _percent(confidence, "--confidence"), _percent(tolerable, "--tolerable")
    drawn = draw(by_number, borne, sure, seed or seed_of(list(by_number), desk.day))
    lines = [by_number[number] for number in drawn.numbers]
    span = f"{f'from {filed_from} to' if filed_from else 'up to'} {filed_to or desk.day.isoformat()}"
    if out:
        sheet = _work_sheet(desk, drawn, lines, (f"{confidence} %", tolerated_said(len(by_number), borne), span))
        write_named(context.obj, context.obj.path(out), _sheet_bytes(sheet, kind, paper))
    if json:
        say.document(_sample_json(drawn, lines, out))
    else:
        _tell_sample(say, drawn, lines, out)
    return 0


def _population(desk: Desk, first: dt.date, last: dt.date) -> list[ListedClaim]:
    """The filed claims of a span of days, both included; claims withdrawn are none."""
    rows = desk.book.claims()
    return [row for row in rows if row.filed and first <= row.filed <= last and row.state not in ("draft", "withdrawn")]


def _percent(written: str, option: str) -> Decimal:
    from claimpack.core.values.money import exact
    from claimpack.errors import BadInput

    try:
        return exact(written.strip().removesuffix("%").strip())
    except ValueError:
        raise BadInput(
            f"{option}: {written!r} is not a percentage",
            "A sample is as large as two percentages make it.",
            f"Write a number, as in {option} {'95' if option == '--confidence' else '5'}.",
        ) from None


def _work_sheet(desk: Desk, drawn: Sample, rows: Sequence[ListedClaim], said: tuple[str, str, str]) -> WorkSheet:
    from claimpack.reports.work_sheet import SheetLine, WorkSheet

    confidence, tolerable, span = said
    facts = (
        ("Shop", desk.shops.name_shown or "not named"),
        ("Drawn on", desk.day.isoformat()),
        ("Claims filed", span),
        ("Drawn", f"{len(drawn.numbers):,} of {how_many(drawn.population, 'claim')}"),
        ("Confidence", f"{confidence}, tolerable in error {tolerable}"),
        ("Seed", drawn.seed),
    )
    lines = [SheetLine(row.number, f"{row.model} {row.serial}".strip(), row.claimed, row.currency) for row in rows]
    return WorkSheet("Audit work sheet", facts, tuple(lines), f"Then: {_conclude_line(drawn)}")


def _conclude_line(drawn: Sample) -> str:
    return f"claimpack audit conclude --population {drawn.population} --sample {len(drawn.numbers)} --errors COUNT"


def _sheet_bytes(sheet: WorkSheet, kind: str, paper: SheetPaper) -> bytes:
    from claimpack.reports.work_sheet import work_sheet_csv, work_sheet_pdf

    return work_sheet_csv(sheet) if kind == ".csv" else work_sheet_pdf(sheet, paper.value)


def _sample_json(drawn: Sample, rows: Sequence[ListedClaim], out: Path | None) -> dict[str, Any]:
    from claimpack.core.values.money import coins, plain

    return {
        "population": drawn.population,
        "sample": len(drawn.numbers),
        "tolerable": drawn.tolerable,
        "seed": drawn.seed,
        "claims": [
            {
                "claim": row.number,
                "unit": f"{row.model} {row.serial}".strip(),
                "amount": plain(coins(row.claimed, row.currency)),
            }
            for row in rows
        ],
        "file": str(out) if out else None,
    }


def _tell_sample(say: Say, drawn: Sample, rows: Sequence[ListedClaim], out: Path | None) -> None:
    from claimpack.core.values.money import coins, grouped

    if out:
        say.answer(str(out))
    else:
        say.table(
            [
                (row.number, row.model, row.serial, grouped(coins(row.claimed, row.currency)), row.currency)
                for row in rows
            ],
            right=(3,),
            indent=0,
        )
    of = how_many(drawn.population, "claim")
    say.note(f"{len(drawn.numbers):,} of {of} drawn; the same again with --seed {drawn.seed}")
    say.note(f"When all are looked at: {_conclude_line(drawn)}")


def conclude(
    context: Context,
    population: Annotated[int, Option(help="How many claims the sample was drawn from.")],
    sample: Annotated[int, Option(help="How many were looked at.")],
    errors: Annotated[int, Option(help="How many of those had an error.")],
    confidence: Annotated[str, Option(metavar="PERCENT", help="How sure to be.")] = "95",
    json: Json = False,
) -> int:
    """Say what a checked sample tells of all claims."""
    from claimpack.commands.desk.say import Say
    from claimpack.core.auditing.sampling import upper_bound
    from claimpack.core.values.money import plain

    bound = upper_bound(population, sample, errors, _percent(confidence, "--confidence"))
    say = Say(context.obj)
    if json:
        say.document(
            {
                "population": population,
                "sample": sample,
                "errors": errors,
                "confidence": plain(bound.confidence),
                "exact": sample == population,
                "at_most": bound.most,
                "at_most_percent": plain(bound.most_percent),
                "says": str(bound),
            }
        )
    else:
        say.answer(str(bound))
    return 0
