"""`claimpack start`: a new claim folder, asked for in the order a counter conversation goes."""

from __future__ import annotations

from pathlib import Path
from shlex import join, quote
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Json, Plans, Today, asks_questions
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.commands.talk.counter_session import CounterSession


def start(
    context: Context,
    folder: Annotated[Path, Argument(metavar="FOLDER", help="The claim folder to make or go on with.")],
    blank: Annotated[bool, Option("--blank", help="Write the commented claim.toml and ask nothing.")] = False,
    plans: Plans = None,
    today: Today = "",
    json: Json = False,
) -> int:
    """Make a claim folder by asking what it needs.

    Stop at any time; the same command goes on where you stopped.
    """
    from claimpack.commands.desk.gather import the_shop
    from claimpack.commands.desk.options import as_given, the_day
    from claimpack.commands.desk.say import Say
    from claimpack.commands.talk.counter_session import CounterSession
    from claimpack.template_files import Places

    world: World = context.obj
    say = Say(world)
    if json and not blank:
        raise asks_questions("start")
    day = the_day(world, today)
    home = world.path(folder)
    shop = the_shop(world, home)
    session = CounterSession.open(home, Places(named=tuple(plans or ()), claim=home, shop=shop.folder), day)
    session.dates = shop.settings.dates
    if blank:
        session.must_be_new()
        session.save()
        if json:
            say.document({"file": str(folder / "claim.toml")})
            return 0
        say.answer(str(folder / "claim.toml"))
        say.note(f"Fill it in, then: claimpack check {quote(str(folder))}")
        return 0
    return _ask_all(world, say, session, folder, as_given(plans=plans, today=today))


def _ask_all(world: World, say: Say, session: CounterSession, folder: Path, options: list[str]) -> int:
    from claimpack.commands.desk.gather import gather
    from claimpack.commands.screen.telling import tell_verdict
    from claimpack.commands.talk.asking import HOW, converse

    say.paragraph(HOW.format(stop="stop saves and leaves"))
    session.save()
    try:
        going_on = converse(say, session)
    except KeyboardInterrupt:
        going_on = False
    if not going_on:
        say.note(f"\nSaved. Go on with: {join(['claimpack', 'start', str(folder), *options])}")
        say.note(f"To change an answer: back, or in {folder / 'claim.toml'}.")
        return 4
    say.note(f"Saved in {folder / 'claim.toml'}. Photos go into {folder / 'photos'}, papers into {folder / 'papers'}.")
    if session.lacks():
        say.note(f"Not asked again, but needed: {', '.join(session.lacks())}. Write them into claim.toml.")
        return 4
    assessment = gather(world, str(folder), list(session.places.named), session.today.isoformat()).assessment
    tell_verdict(say, assessment, named=str(folder))
    say.note(f"\nWhat it still needs: claimpack check {quote(str(folder))}")
    return {"covered": 0, "not covered": 3, "undecided": 4}[assessment.verdict]
