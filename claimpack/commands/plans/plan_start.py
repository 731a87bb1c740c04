"""`claimpack plan start`: a coverage plan begun from the maker's warranty booklet."""

from __future__ import annotations

from pathlib import Path
from shlex import quote
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Json, Today, asks_questions
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.commands.plans.booklet.session import BookletSession


def start_plan(
    context: Context,
    file: Annotated[Path, Argument(metavar="FILE", help="The plan file to make, as in coverage/halden.toml.")],
    blank: Annotated[bool, Option("--blank", help="Write every key, commented out, and ask nothing.")] = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Begin a plan: asks in the order of a warranty booklet, and writes the file."""
    from claimpack.commands.desk.gather import the_shop
    from claimpack.commands.desk.options import the_day
    from claimpack.commands.desk.say import Say
    from claimpack.core.drafting.booklet.keys import slug
    from claimpack.core.drafting.plan_text import plan_text
    from claimpack.errors import BadInput

    world: World = context.obj
    say, path, shop = Say(world), world.path(file), the_shop(world)
    plan_id = slug(file.stem)
    if file.suffix != ".toml" or not plan_id:
        raise BadInput(f"{file} is no name for a plan", "Plans are found by their name.", "As in coverage/halden.toml.")
    if path.exists():
        raise BadInput(f"{file} already exists", "A new plan would wipe out what it says.", "Choose another name.")
    if json and not blank:
        raise asks_questions("plan start")
    if blank:
        _write(path, plan_text({"id": plan_id}, whole=True), shop.folder)
        if json:
            say.document({"file": str(file)})
            return 0
        say.answer(str(file))
        say.note(f"Fill it in, then: claimpack plan check {quote(str(file))}")
        return 0
    from claimpack.commands.plans.booklet.session import BookletSession

    currency = shop.settings.currency or "USD"
    session = BookletSession(plan_id, the_day(world, today), shop.settings.dates, currency)
    return _ask_all(world, say, session, file)


def _ask_all(world: World, say: Say, session: BookletSession, file: Path) -> int:
    from claimpack.commands.desk.gather import the_shop
    from claimpack.commands.plans.looking_over import problems_of
    from claimpack.commands.talk.asking import HOW, converse
    from claimpack.core.drafting.booklet.keys import NOT_ASKED, plan_keys
    from claimpack.core.drafting.plan_text import plan_text

    say.paragraph(HOW.format(stop="stop writes what there is and leaves"))
    try:
        at_end = converse(say, session)
    # what was answered is kept: an hour over a booklet must not be lost to one key
    except KeyboardInterrupt:
        at_end = False
    path = world.path(file)
    _write(path, plan_text(plan_keys(session.values, session.plan_id)), the_shop(world).folder)
    say.answer(str(file))
    if session.lacks():
        say.note(f"It is no plan yet without: {', '.join(session.lacks())}. Write it into the file.")
        return 4
    doubts = problems_of(path)
    for doubt in doubts:
        say.item("·", doubt)
    say.note("Not asked; where the booklet says something of it, look it up:")
    for theme, key in NOT_ASKED:
        say.note(f"  {theme}: claimpack plan keys {key}")
    if not at_end:
        say.note("Go on in the file; what a key means: claimpack plan keys WORD.")
    say.note(f"What it pays: claimpack plan try {quote(str(file))}")
    return 4 if doubts or not at_end else 0


def _write(path: Path, text: str, shop: Path | None) -> None:
    from claimpack.files import write_atomically
    from claimpack.folder.file_kinds import with_schema_line
    from claimpack.folders import make_folders

    make_folders([path.parent])
    write_atomically(path, with_schema_line(text, "plan", path.parent, shop).encode())
