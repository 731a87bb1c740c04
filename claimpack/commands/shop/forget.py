"""`claimpack shop forget`: a picture, a paper or an owner's data erased for good, on request."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import BookClaim, Json, Today
from claimpack.commands.line.declared import Context, Option
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from claimpack.book.keeping.forgetting import Forgotten
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.claim import Claim

# Fewer digits could name two files, and what is erased does not come back.
_LEAST_OF_A_HASH = 8

Named = Annotated[
    list[str] | None,
    Option(metavar="FILE", help="A picture: its file, number, or the start of its hash."),
]
Papers = Annotated[
    list[str] | None,
    Option(metavar="FILE", help="A paper: its file, or the start of its hash."),
]


def forget(
    context: Context,
    claim: BookClaim,
    photo: Named = None,
    paper: Papers = None,
    owner: Annotated[bool, Option("--owner", help="The owner's name, phone, mail and address.")] = False,
    because: Annotated[str, Option(metavar="REASON", help="Why; it stays in the history.")] = "",
    today: Today = "",
    json: Json = False,
) -> int:
    """Erase a picture, a paper or the owner's data from a claim for good: revisions, history, packets, vault.

    Amounts, dates and the fact that something was erased stay. Nothing brings back what is erased.
    """
    from claimpack.book.keeping.forgetting import Wish, forget, wipe
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say

    desk, say, number = Desk(context.obj, today), Say(context.obj), number_of(claim)
    _refuse_without(owner or photo or paper, because)
    entry = desk.book.get(number)
    desk.shops.must_be_ours(number, entry.standing.shop)
    # told and not erased: of one name there may be two people
    others = _others(desk, number, entry.claim) if owner else []
    contents = frozenset(_content(desk, number, entry.claim, name) for name in (*(photo or ()), *(paper or ())))
    what = _what(len(photo or ()), len(paper or ()), owner=owner)
    # read before the book is locked: a plan that cannot be read must not stop an erasure half way
    _ = desk.plans
    wish = Wish(number, owner, contents, what, because, desk.day)
    done = forget(desk.book, wish, desk.author, desk.summary_of, desk.vault.drop)
    papers = desk.book.get(number).claim.paper_files() if owner else ()
    facts = _facts(number, what, done, others, papers) | {"wiped": wipe(desk.book.engine)}
    if json:
        say.document(facts | {"because": because})
    else:
        _tell(desk, say, facts)
    return 0


def _refuse_without(named: object, because: str) -> None:
    from claimpack.errors import BadInput

    if not named:
        raise BadInput(
            "shop forget: nothing says what is to be erased",
            "What is erased is gone for good.",
            "Add --owner, --photo FILE or --paper FILE.",
        )
    if not because.strip():
        raise BadInput(
            "--because is missing: why is it erased?",
            "The history keeps that something was erased, who did it, and why.",
            "Add it, as in: --because 'On request of the owner'",
        )


def _what(pictures: int, papers: int, *, owner: bool) -> str:
    """What is erased, in words."""
    counted = ((pictures, "picture"), (papers, "paper"))
    said = [f"{count} {word}{'s' if count > 1 else ''}" for count, word in counted if count]
    return " and ".join([*said, *(["the owner's data"] if owner else [])])


def _others(desk: Desk, number: str, claim: Claim) -> list[str]:
    """Other claims of an owner of the same name, of whatever shop: an owner asks once."""
    from claimpack.book.tables.entries import Wanted
    from claimpack.commands.desk.gather import the_book
    from claimpack.core.values.words import folded

    name = claim.owner.name
    found = the_book(desk.world.of_all_shops(), desk.shop).claims(Wanted(text=name)) if name else []
    return sorted(row.number for row in found if row.number != number and folded(row.owner) == folded(name))


def _content(desk: Desk, number: str, claim: Claim, named: str) -> str:
    """The hash of a file that a claim has or once had.

    Raises:
        NotFound: it never had such a file.
        BadInput: it had several of that name.
    """
    from claimpack.errors import BadInput, NotFound

    # a number beyond the list may still begin a hash
    if named.isdecimal() and 1 <= int(named) <= len(claim.photos):
        named = claim.photos[int(named) - 1].file
    # also files that were taken off: earlier revisions still show them
    had = desk.book.files_ever(number)
    found = sorted({sha256 for path, sha256 in had if _is(named, path, sha256)})
    if not found:
        raise NotFound(
            f"claim {number} has no file {named!r}, and never had",
            "Files are named as the claim names them, such as photos/plate.jpg.",
            f"See them: claimpack photo list {number}, claimpack history {number}",
        )
    if len(found) > 1:
        raise BadInput(
            f"claim {number} had {len(found)} files called {named}",
            "Another one would be erased with the one that is meant.",
            f"Name it by the start of its hash: {', '.join(sha256[:12] for sha256 in found)}",
        )
    return found[0]


def _is(named: str, path: str, sha256: str) -> bool:
    word = named.casefold()
    by_hash = len(word) >= _LEAST_OF_A_HASH and sha256.startswith(word)
    return by_hash or word in (path.casefold(), path.rpartition("/")[2].casefold())


def _facts(number: str, what: str, done: Forgotten, others: Sequence[str], papers: Sequence[str]) -> dict[str, Any]:
    return {
        "claim": number,
        "erased": what,
        "revisions": done.revisions,
        "events": done.events,
        "contents": list(done.contents),
        "kept_elsewhere": list(done.kept_elsewhere),
        "remains": list(done.remains),
        "others": list(others),
        "papers": list(papers),
    }


def _tell(desk: Desk, say: Say, facts: dict[str, Any]) -> None:
    gone = len(facts["contents"]) - len(facts["kept_elsewhere"])
    counted = ((facts["revisions"], "revision"), (facts["events"], "event"))
    rewritten = " and ".join(how_many(count, word) for count, word in counted)
    say.answer(
        f"{facts['claim']}: {facts['erased']} erased: {rewritten} rewritten, {how_many(gone, 'file')} out of the vault"
    )
    if facts["kept_elsewhere"]:
        say.note("Another claim keeps the same file; erase it there too, or the vault still holds it:")
        for sha256, claims in desk.book.with_content(facts["kept_elsewhere"]).items():
            say.item("·", f"{sha256[:12]}: {', '.join(claims)}")
    if facts["remains"]:
        say.note(f"The owner is still named here: {', '.join(facts['remains'])}.")
    if facts["papers"]:
        say.note(
            f"Papers that stay may show the owner: {', '.join(facts['papers'])}. Look at them, and erase one with:"
        )
        say.note(f"claimpack shop forget {facts['claim']} --paper FILE --because REASON")
    if facts["others"]:
        say.note(f"The same owner is on {', '.join(facts['others'])}: claimpack shop forget NUMBER --owner")
    if not facts["wiped"]:
        say.note("Somebody else reads the book now, so old bytes are left in its file. Run the same command again.")
    if desk.vault.is_elsewhere:
        say.note(
            f"Where {desk.vault.name} keeps versions or locks objects, the file is still there: tell whoever runs it. "
            "On other machines its copy goes with: claimpack shop verify"
        )
    say.note("Not erased: what the pictures and papers that stay show, backups and archives, and packets written out.")
