"""`claimpack photo`: pictures put on a claim, named, marked, taken off."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import BookClaim, Caption, Json
from claimpack.commands.line.declared import Argument, Context, Family, Option
from claimpack.commands.pictures.photo_add import add_photos
from claimpack.commands.pictures.photo_read import read_photos
from claimpack.commands.pictures.photo_sort import sort_photos
from claimpack.commands.pictures.receive import receive_photos
from claimpack.commands.pictures.sheet import sheet
from claimpack.commands.pictures.watch import watch_folder

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.claim import Claim
    from claimpack.core.facts.pictures import Mark, Photo

photo_app = Family(help="Add pictures, mark them, sort a phone's worth by tag.")
"""The commands about pictures."""

PictureNamed = Annotated[str, Argument(metavar="N|FILE", help="Which picture, as listed.")]
_AT = "X,Y[,SIZE]"


photo_app.command("add")(add_photos)


@photo_app.command("list")
def list_photos(context: Context, claim: BookClaim, json: Json = False) -> int:
    """List the pictures of a claim, and the shots still missing."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of, tell_shots, wanted_shots
    from claimpack.commands.desk.say import Say

    desk, say = Desk(context.obj), Say(context.obj)
    entry = desk.book.get(number_of(claim))
    plan = desk.plan_of(entry.claim)
    if json:
        photos = [_photo_json(entry, place) for place in range(1, len(entry.claim.photos) + 1)]
        say.document({"claim": claim, "photos": photos, "missing_shots": wanted_shots(entry.claim, plan)})
        return 0
    _tell_list(say, entry)
    if not entry.claim.photos and not wanted_shots(entry.claim, plan):
        say.note(f"No picture yet: claimpack photo add {claim} FILE…")
    tell_shots(say, entry.claim, plan)
    return 0


def _tell_list(say: Say, entry: Entry) -> None:
    """The pictures of a claim in columns, numbered from 1, with their captions below; nothing where there is none."""
    from claimpack.commands.screen.columns import ScreenColumn, Under, tell_columns

    photos, kept = entry.claim.photos, {file.path: file.taken for file in entry.files}
    if not photos:
        return
    taken = [kept.get(photo.file) for photo in photos]
    columns = (
        ScreenColumn("", [str(place) for place in range(1, len(photos) + 1)], right=True),
        ScreenColumn("File", [photo.file for photo in photos], least=14),
        ScreenColumn("Shows", [photo.shot or "-" for photo in photos], least=12),
        ScreenColumn("Taken", [f"{at:%Y-%m-%d %H:%M}" if at else "no time" for at in taken], lesser=1),
        ScreenColumn("Marks", [str(len(photo.marks) or "") for photo in photos], right=True),
    )
    tell_columns(say, columns, [Under("", " ".join(photo.caption.split())) for photo in photos], indent=0)


def _photo_json(entry: Entry, place: int) -> dict[str, Any]:
    photo = entry.claim.photos[place - 1]
    kept = next((file for file in entry.files if file.path == photo.file), None)
    taken = kept.taken.isoformat() if kept and kept.taken else None
    return {"n": place, **photo.model_dump(mode="json"), "taken": taken, "sha256": kept.sha256 if kept else None}


@photo_app.command("shot")
def name_shot(
    context: Context,
    claim: BookClaim,
    place: PictureNamed,
    text: Annotated[str, Argument(metavar="TEXT", help="What it shows, as in 'serial plate'.")],
    caption: Caption = "",
    json: Json = False,
) -> int:
    """Say what a picture shows."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import note_near_shot, number_of, shot_meant
    from claimpack.commands.desk.say import Say
    from claimpack.commands.pictures.photo_filing import index_of
    from claimpack.core.facts.keys import record_from
    from claimpack.core.facts.pictures import Photo

    desk, say = Desk(context.obj), Say(context.obj)
    meant = shot_meant(say, text, desk.plan_of(desk.book.get(number_of(claim)).claim))
    with desk.changing(number_of(claim)) as changing:
        index = index_of(changing.claim, place)
        before = changing.claim.photos[index]
        keys = {"file": before.file, "shot": meant, "caption": caption or before.caption}
        after = record_from(Photo, keys, "photo shot", {"shot": "TEXT", "caption": "--caption"}).model_copy(
            # marks, and what a person confirmed, are about the picture and not about what it is called
            update={"marks": before.marks, **({"read": before.read} if before.read else {})}
        )
        changing.keep(_with(changing.claim, index, after), why=f"{before.file} shows: {after.shot}")
    note_near_shot(say, after.shot, desk.plan_of(changing.claim))
    return _told(say, changing.claim, index, after, json=json)


@photo_app.command("mark")
def mark_photo(
    context: Context,
    claim: BookClaim,
    place: PictureNamed,
    ring: Annotated[str, Option(metavar=_AT, help="Around a place: fractions from the upper left.")] = "",
    arrow: Annotated[str, Option(metavar=_AT, help="With its tip at a place.")] = "",
    box: Annotated[str, Option(metavar=_AT, help="With its upper left corner at a place.")] = "",
    note: Annotated[str, Option(metavar="TEXT", help="A word beside the mark.")] = "",
    clear: Annotated[bool, Option("--clear", help="Take every mark off first.")] = False,
    json: Json = False,
) -> int:
    """Draw a ring, an arrow or a box over a picture."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.commands.pictures.photo_filing import index_of
    from claimpack.errors import BadInput

    given = {shape: at for shape, at in (("ring", ring), ("arrow", arrow), ("box", box)) if at}
    if not given and not clear:
        raise BadInput(
            "photo mark needs --ring, --arrow or --box, or --clear",
            "A mark lies at fractions of the picture's width and height, from its upper left.",
            f"As in: claimpack photo mark {claim} {place} --ring 0.42,0.61 --note crack",
        )
    added = tuple(_mark(shape, at, note) for shape, at in given.items())
    with Desk(context.obj).changing(number_of(claim)) as changing:
        index = index_of(changing.claim, place)
        before = changing.claim.photos[index]
        after = before.model_copy(update={"marks": (*(() if clear else before.marks), *added)})
        changing.keep(_with(changing.claim, index, after), why=f"marks on {before.file}")
    return _told(Say(context.obj), changing.claim, index, after, json=json)


def _mark(shape: str, at: str, note: str) -> Mark:
    from claimpack.core.facts.keys import record_from
    from claimpack.core.facts.pictures import Mark
    from claimpack.errors import BadInput

    numbers = [number.strip() for number in at.split(",")]
    if len(numbers) not in (2, 3):
        raise BadInput(f"--{shape}: {at!r} is no place in a picture", do="Write it as X,Y or X,Y,SIZE: 0.42,0.61")
    place = dict(zip(("x", "y", "size"), numbers, strict=False))
    return record_from(
        Mark,
        {"shape": shape, "note": note, **place},
        f"--{shape}",
        {"note": "--note", "x": "X", "y": "Y", "size": "SIZE"},
    )


@photo_app.command("remove")
def remove_photo(context: Context, claim: BookClaim, place: PictureNamed, json: Json = False) -> int:
    """Take a picture off a claim; the vault keeps it."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of, tell_shots, without
    from claimpack.commands.desk.say import Say
    from claimpack.commands.pictures.photo_filing import index_of

    desk, say = Desk(context.obj), Say(context.obj)
    with desk.changing(number_of(claim)) as changing:
        index = index_of(changing.claim, place)
        gone = changing.claim.photos[index]
        after = changing.claim.model_copy(update={"photos": without(changing.claim.photos, index + 1)})
        named = {*(photo.file for photo in after.photos), *after.paper_files()}
        # the same file may be a paper of the claim, or its proof of purchase
        files = [file for file in changing.entry.files if file.path != gone.file or file.path in named]
        changing.keep(after, files=files, why=f"{gone.file} taken off")
    if json:
        say.document({"claim": changing.claim.number, "removed": gone.model_dump(mode="json")})
        return 0
    say.answer(f"{changing.claim.number}: {gone.file} taken off")
    say.note("The vault keeps the picture, and earlier revisions of the claim still show it.")
    tell_shots(say, changing.claim, desk.plan_of(changing.claim))
    return 0


def _with(claim: Claim, index: int, photo: Photo) -> Claim:
    photos = (*claim.photos[:index], photo, *claim.photos[index + 1 :])
    return claim.model_copy(update={"photos": photos})


def _told(say: Say, claim: Claim, index: int, photo: Photo, *, json: bool) -> int:
    if json:
        say.document({"claim": claim.number, "n": index + 1, **photo.model_dump(mode="json")})
        return 0
    marks = "; ".join(
        f"{mark.shape} at {mark.x}, {mark.y}{f' ({mark.note})' if mark.note else ''}" for mark in photo.marks
    )
    said = " · ".join(part for part in (photo.shot, " ".join(photo.caption.split()), marks) if part)
    say.answer(f"{claim.number}: {photo.file}: {said or 'no shot, no mark'}")
    return 0


photo_app.command("sort")(sort_photos)
photo_app.command("receive")(receive_photos)
photo_app.command("read")(read_photos)
photo_app.command("sheet")(sheet)
photo_app.command("watch")(watch_folder)
