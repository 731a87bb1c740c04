"""`claimpack shop roles`: the SQL that lets logins of a server read a book, work at the bench, or do office work."""

from __future__ import annotations

from claimpack.commands.desk.options import Json
from claimpack.commands.line.declared import Context


def roles(context: Context, json: Json = False) -> int:
    """Print the SQL that gives logins of a PostgreSQL server their parts: accountant, technician, office.

    An accountant reads everything. A technician changes claims, photographs, logs time, notes, moves and sends parts;
    the server takes no payment, answer, filing or write-off from one. The office does it all but erase; the owner of
    the book does that, too. Nothing is changed by this command.
    """
    from claimpack.book.keeping.roles import ACCOUNTANT, AT_THE_BENCH, OFFICE, TECHNICIAN, statements
    from claimpack.commands.desk.gather import the_book, the_shop
    from claimpack.commands.desk.say import Say

    say, book = Say(context.obj), the_book(context.obj, the_shop(context.obj))
    told = list(statements(book.schema_name()))
    if json:
        roles = {"accountant": ACCOUNTANT, "technician": TECHNICIAN, "office": OFFICE}
        say.document({"roles": roles, "technician_records": list(AT_THE_BENCH), "statements": told})
        return 0
    for statement in told:
        say.answer(statement)
    say.answer("-- Then a login for each person, as in:")
    say.answer(f"-- CREATE ROLE ben LOGIN PASSWORD '…' IN ROLE {TECHNICIAN};")
    say.note(
        "Run it as the owner of the book: claimpack shop roles | psql DATABASE; again after an update of claimpack."
    )
    if not book.engine.on_server:
        say.note("This book is a file: who may open it may change it. Roles are PostgreSQL's.")
    return 0
