"""`claimpack paper read`: a receipt's day, serials, seller and total; day and serials are compared with the claim."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.bench.read_off import Answered, FileRead, Keep, Take, confirm
from claimpack.commands.desk.options import BookClaim, Json, Plans, Today
from claimpack.commands.line.declared import Argument, Context

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.core.claims.claim import Claim
    from claimpack.core.reading.read_text import TextRead


def read_papers(
    context: Context,
    claim: BookClaim,
    places: Annotated[
        list[str] | None, Argument(metavar="[N|FILE]...", help="Which papers; default: the proof of purchase.")
    ] = None,
    take: Take = None,
    keep: Keep = None,
    plans: Plans = None,
    today: Today = "",
    json: Json = False,
) -> int:
    """Read a receipt: its day, serial numbers, seller and total."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say

    desk, say, number = Desk(context.obj, today, plans), Say(context.obj), number_of(claim)
    desk.must_take_changes(number)
    entry = desk.book.get(number)
    kept = {file.path: file.sha256 for file in entry.files}
    # a file that the book does not keep is told elsewhere, and has nothing to read
    files = [file for file in _named(entry.claim, places or ()) if file in kept]
    read = [_read(desk, entry.claim, file, desk.vault.find(kept[file], file)) for file in files]
    return confirm(desk, say, number, read, Answered(tuple(take or ()), tuple(keep or ())), json=json)


def _named(claim: Claim, places: Sequence[str]) -> list[str]:
    """The papers named, else the proof of purchase.

    Raises:
        NotFound: there is none of that number or name, or no proof.
    """
    from claimpack.commands.bench.paper_filing import named_paper
    from claimpack.errors import NotFound

    if places:
        return [named_paper(claim, place) for place in places]
    if claim.proof.file:
        return [claim.proof.file]
    raise NotFound(
        f"claim {claim.number} has no paper as its proof of purchase",
        "Nothing else is read unless it is named.",
        f"Add it: claimpack paper add {claim.number} FILE --proof receipt; or name one: claimpack paper read "
        f"{claim.number} N",
    )


def _read(desk: Desk, claim: Claim, file: str, path: Path) -> FileRead:
    from claimpack.core.reading.compared import of_receipt
    from claimpack.core.reading.receipts import receipt_read
    from claimpack.core.values.money import plain
    from claimpack.core.verdict.matching import may_fall_under

    lines, plan, fitting = _lines(path, file), desk.plan_of(claim), may_fall_under(claim, desk.plans)
    currency = claim.currency or (plan.currency if plan else "") or desk.shop.settings.currency or ""
    read = receipt_read(lines, desk.day, desk.shop.settings.dates, currency)
    total = "" if read.total is None else f"{plain(read.total)} {currency}".strip()
    return FileRead(file, lines, of_receipt(read, claim, lines, fitting), {"seller": read.seller, "total": total})


def _lines(path: Path, file: str) -> tuple[TextRead, ...]:
    from claimpack.evidence.reading.reading import read_pdf, read_picture

    with path.open("rb") as opened:
        # by its content: a phone may call a picture receipt.pdf
        is_pdf = b"%PDF" in opened.read(1024)
    return read_pdf(path, file) if is_pdf else read_picture(path, file, letters=True)
