"""A book opened: there, whole enough to be read, and brought up to date where it can be written."""

from __future__ import annotations

from pathlib import Path

from claimpack.book.book import Book
from claimpack.book.copied import engine_on_copy
from claimpack.book.database import engines
from claimpack.book.database.connections import database_errors
from claimpack.book.database.hindrances import READS_ALONE, is_read_only
from claimpack.book.refusals import emptied
from claimpack.book.tables.migrations import migrate
from claimpack.errors import NotFound
from claimpack.files import make_private_file


def open_book(place: str, *, create: bool = False, shop: str = "", all_shops: bool = False) -> Book:
    """Open a book and bring it up to date; one that cannot be written now is read from a copy, where that is safe.

    Args:
        place: path of a SQLite file, `:memory:`, or a `postgresql://` URL.
        create: make the SQLite file where there is none.
        shop: the id of the shop that opens it, empty in a book of one: whose claims its lists are of, and new ones.
        all_shops: whether lists are of every shop's claims, and what happened to any of them may be recorded.

    Raises:
        NotFound: there is no book, or its server does not answer.
        BadInput: its file was emptied.
        WrongState: the book is newer than this program.
    """
    if not engines.exists(place):
        if not create:
            raise NotFound(f"{place}: there is no book", do="Make a shop: claimpack shop init FOLDER")
        # made before the database does, which would let everybody on the machine read it
        make_private_file(Path(place))
    book = Book(place, shop, all_shops=all_shops)
    try:
        # a book that cannot be written cannot be brought up to date either: what there is of it is read
        if not (is_read_only(place) and _reads_copy(book)):
            # before the first step would fill an emptied file with new tables
            if not create and engines.is_emptied(book.engine):
                raise emptied(place)
            migrate(book.engine)
        if book.engine.on_server and not engines.may_write(book.engine):
            book.engine.hindered = READS_ALONE
    except database_errors() as error:
        # a folder may turn out not to take the log only when the file is opened
        if not _reads_copy(book):
            raise engines.unreachable(place, error) from error
    return book


def _reads_copy(book: Book) -> bool:
    """Let a book that cannot be written be read from a copy; whether there is one."""
    book.engine.dispose()
    copy = engine_on_copy(book.place)
    book.engine = copy or book.engine
    return copy is not None
