"""`claimpack photo read`: what plates and meters say, proposed, compared with the claim, and confirmed by a person."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.bench.read_off import Answered, FileRead, Keep, Take, confirm
from claimpack.commands.desk.options import BookClaim, Json, Plans, Today
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.claim import Claim


def read_photos(
    context: Context,
    claim: BookClaim,
    places: Annotated[
        list[str] | None,
        Argument(metavar="[N|FILE]...", help="Which pictures; default: those of plates and meters."),
    ] = None,
    take: Take = None,
    keep: Keep = None,
    codes: Annotated[bool, Option("--codes", help="Bar codes and QR codes alone, which is quicker.")] = False,
    plans: Plans = None,
    today: Today = "",
    json: Json = False,
) -> int:
    """Read plates and meters, and compare them with the claim."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.evidence.reading.letters import can_read_letters, no_letters

    desk, say, number = Desk(context.obj, today, plans), Say(context.obj), number_of(claim)
    desk.must_take_changes(number)
    letters = not codes and can_read_letters()
    read = _read(desk, say, number, places or (), letters=letters)
    # told only where letters were wanted
    if not codes and not letters:
        say.note(no_letters())
    return confirm(desk, say, number, read, Answered(tuple(take or ()), tuple(keep or ())), json=json)


def _read(desk: Desk, say: Say, number: str, places: Sequence[str], *, letters: bool) -> list[FileRead]:
    from claimpack.core.reading.compared import proposed, shows_a_meter
    from claimpack.core.verdict.matching import may_fall_under
    from claimpack.evidence.reading.reading import read_picture

    entry = desk.book.get(number)
    claim, kept = entry.claim, {file.path: file.sha256 for file in entry.files}
    photos = [photo for photo in _named(claim, places) if photo.file in kept]
    fitting = may_fall_under(claim, desk.plans)
    found = []
    with say.progress("Reading", len(photos)) as advance:
        for photo in photos:
            path, meter = desk.vault.find(kept[photo.file], photo.file), shows_a_meter(photo.shot)
            lines = read_picture(path, photo.file, letters=letters, meter=meter)
            compared = proposed(lines, claim, fitting, photo.shot, desk.day, desk.shop.settings.dates)
            found.append(FileRead(photo.file, lines, compared))
            advance()
    return found


def _named(claim: Claim, places: Sequence[str]) -> list[Any]:
    """The pictures named, else those of plates and meters, else all of them."""
    from claimpack.commands.pictures.photo_filing import index_of
    from claimpack.core.reading.compared import shows_a_plate

    if places:
        return [claim.photos[index_of(claim, place)] for place in places]
    return [photo for photo in claim.photos if shows_a_plate(photo.shot)] or list(claim.photos)
