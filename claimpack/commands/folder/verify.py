"""`claimpack verify`: a packet against its own data, its signature, and the shop's record of what was filed."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.core.steps.filing import FilingFound
    from claimpack.packet.proving.verify import Verification

_ITSELF_ALONE = (
    "Hashes inside a packet prove that it is consistent, not who made it: compare its SHA-256 with your record."
)


def verify(
    context: Context,
    file: Annotated[Path, Argument(metavar="FILE", help="The packet; - for standard input.")],
    originals: Annotated[
        Path | None, Option("--originals", metavar="FOLDER", help="Also compare the claim folder's files.")
    ] = None,
    json: Json = False,
) -> int:
    """Prove a packet against its own data.

    Names what was altered since it was made, checks its signature, and in the shop that filed it says whether it is
    the packet that was filed.
    """
    from claimpack.commands.desk.named_files import read_from
    from claimpack.commands.desk.say import Say
    from claimpack.packet.proving.verify import verify as verified

    world, say = context.obj, Say(context.obj)
    result = verified(read_from(world, file), originals=world.path(originals) if originals else None)
    filing, unasked = _filing(world, result)
    if json:
        say.document(result.as_json() | {"filed": _as_json(filing)})
    else:
        _tell(say, result, filing)
    for note in (*unasked, *result.not_checked):
        say.note(note)
    return _code(result, filing)


def _code(result: Verification, filing: FilingFound | None) -> int:
    if result.genuine is False or (filing and not filing.same):
        return 3
    return 4 if result.genuine is None else 0


def _filing(world: World, result: Verification) -> tuple[FilingFound | None, tuple[str, ...]]:
    """What the shop one stands in froze when it filed the claim; what could not be asked."""
    from claimpack.commands.desk.gather import the_book, the_shop
    from claimpack.core.steps.filing import filing_with
    from claimpack.errors import ClaimpackError

    try:
        shop = the_shop(world)
        if shop.folder is None or not result.claim:
            return None, ()
        return filing_with(the_book(world, shop).history(result.claim), result.sha256), ()
    except ClaimpackError as error:
        return None, (f"The shop's book could not be asked whether this was filed: {error.what}",)


def _as_json(filing: FilingFound | None) -> dict[str, Any] | None:
    return {"same": filing.same, "on": filing.on.isoformat(), "version": filing.version} if filing else None


def _tell(say: Say, result: Verification, filing: FilingFound | None) -> None:
    style, word = {True: ("good", "GENUINE"), False: ("bad", "ALTERED"), None: ("wait", "UNDECIDED")}[result.genuine]
    if result.genuine is not False and filing and not filing.same:
        style, word = "bad", "NOT AS FILED"
    say.answer(f"{say.styled(word, style)}  claim {result.claim}, {result.pages} pages, {result.files} files compared")
    say.whole("  SHA-256 of the packet:", result.sha256)
    for sentence in result.signature.said() if result.signature else ():
        say.answer(f"  {sentence}")
    if filing and filing.same:
        say.answer(f"  It is the packet filed on {filing.on} (version {filing.version}), byte for byte.")
    elif filing:
        say.item(say.mark("fail"), f"it is not the packet filed on {filing.on} (version {filing.version})")
    for problem in result.problems:
        say.item(say.mark("fail"), str(problem))
    if not (filing and filing.same):
        say.note(_ITSELF_ALONE)
