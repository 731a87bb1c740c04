"""`claimpack finish`: a repair written down at its end, in one conversation or from options."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import BookClaim, Json, Today
from claimpack.commands.line.declared import Context, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.changing import Changing
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.talk.finish_session import FinishSession
    from claimpack.core.claims.claim import Claim


def finish(
    context: Context,
    claim: BookClaim,
    cause: Annotated[str, Option(metavar="TEXT", help="What caused it.")] = "",
    correction: Annotated[str, Option(metavar="TEXT", help="What was done about it.")] = "",
    component: Annotated[str, Option(help="What failed.")] = "",
    defect: Annotated[str, Option(help="As in material, wear, accident.")] = "",
    part: Annotated[
        list[str] | None,
        Option(metavar="'NUMBER [xN] [=COST] [NAME] [sent]'", help="A part used (repeatable)."),
    ] = None,
    labour: Annotated[
        list[str] | None,
        Option(metavar="'OPERATION [HOURS]'", help="Labour (repeatable)."),
    ] = None,
    shelf: Annotated[str, Option(metavar="SHELF", help="Where the failed part is kept; no: it is not.")] = "",
    drained: Annotated[bool | None, Option("--drained/--not-drained", help="Fuel and oil are out.")] = None,
    repaired: Annotated[str, Option(metavar="DATE", help="Repaired on.")] = "",
    returned: Annotated[str, Option(metavar="DATE", help="The day the owner was told that it is ready.")] = "",
    ask: Annotated[bool, Option("--ask", help="Ask for all that the options leave open.")] = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Write up a finished repair: by questions, or from options alone."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.commands.talk.finish_session import DRAINED, HELD, LABOUR, PART, FinishSession

    desk, say, number = Desk(context.obj, today), Say(context.obj), number_of(claim)
    # before anything is asked, so that nobody types for nothing
    desk.must_take_changes(number)
    entry = desk.book.get(number)
    session = FinishSession.of(desk, entry.claim)
    given = [
        ("failure.cause", cause),
        ("failure.correction", correction),
        ("failure.component", component),
        ("failure.defect", defect),
        *((PART, each) for each in part or ()),
        *((LABOUR, each) for each in labour or ()),
        (HELD, shelf),
        (DRAINED, {True: "yes", False: "no", None: ""}[drained]),
        ("dates.repaired", repaired),
        ("dates.returned", returned),
    ]
    given = [(key, typed) for key, typed in given if typed]
    _from_options(session, given)
    # without options there is nothing to keep, so it is asked
    if (ask or not given) and not _asked(say, session):
        say.note(f"Nothing of {number} was changed.")
        if json:
            say.nothing_done("Give options, as in: claimpack finish --cause TEXT --correction TEXT --repaired DATE")
        return 4
    return _keep(desk, say, session, entry.revision, number, json=json)


_WRITTEN = {
    "failure.cause": "--cause",
    "failure.correction": "--correction",
    "failure.component": "--component",
    "failure.defect": "--defect",
    "+part": "--part",
    "+labour": "--labour",
    "+held": "--shelf",
    "+drained": "--drained",
    "dates.repaired": "--repaired",
    "dates.returned": "--returned",
}


def _from_options(session: FinishSession, given: list[tuple[str, str]]) -> None:
    """Take what the options say.

    Raises:
        BadInput: one has no meaning, or contradicts the claim.
    """
    from claimpack.errors import BadInput

    by_key = {question.key: question for question in session.questions}
    for key, typed in given:
        # an option is meant as it stands: a doubt that a conversation would ask about is not asked here
        session.doubted.add((key, typed.casefold()))
        try:
            session.answer(by_key[key], typed)
        except BadInput as wrong:
            raise BadInput(f"{_WRITTEN[key]}: {wrong.what}", wrong.why, wrong.do, wrong.problems) from None


def _asked(say: Say, session: FinishSession) -> bool:
    """Whether the conversation came to its end; what it was broken off with is not kept."""
    from claimpack.commands.talk.asking import HOW, converse

    say.paragraph(HOW.format(stop="stop leaves without a change"))
    claim = session.so_far()
    for name in ("parts", "labour"):
        there = len(getattr(claim, name)) - len(getattr(session, name))
        if there:
            say.note(f"  On the claim already: {there} of {name}.")
    return converse(say, session)


def _keep(desk: Desk, say: Say, session: FinishSession, revision: int, number: str, *, json: bool) -> int:
    """Keep the finished claim in one change, and tell it with what it still needs."""
    from claimpack.commands.screen.changes import facts_of
    from claimpack.core.claims.editing.changes import differences
    from claimpack.core.shelf.same_part import must_be_another

    after = session.claim(number)
    with desk.changing(number, revision) as changing:
        before = changing.claim
        for held in session.held:
            # asked again under the lock: the same part may have been put on a shelf meanwhile
            must_be_another(before, changing.standing, held, another=False)
        changed = list(differences(before, after))
        # an empty change would be a line of the history that says nothing
        if changed:
            changing.keep(after, why="finished", facts=facts_of(changed))
    return _tell(desk, say, session, changing, before, json=json)


def _tell(desk: Desk, say: Say, session: FinishSession, changing: Changing, before: Claim, *, json: bool) -> int:
    from claimpack.commands.desk.one_claim import tell_shots
    from claimpack.commands.screen.changes import note_verdict, tell_changes
    from claimpack.commands.screen.telling import tell_summary
    from claimpack.core.claims.editing.changes import differences

    claim = changing.claim
    if json:
        tell_changes(say, claim.number, list(differences(before, claim)), json=True)
        return 0
    assessment = desk.assess(desk.book.get(claim.number))
    say.answer(f"{claim.number}: {_done(session)}")
    tell_summary(say, assessment)
    for note in session.notes.values():
        if note:
            say.note(note)
    note_verdict(say, desk, changing)
    if session.held:
        say.answer("Caution:")
        for caution in assessment.tags[-1].cautions:
            say.item(say.mark("todo"), caution)
        say.note(f"Print its tag: claimpack tag {claim.number} --part {len(claim.held)}")
    tell_shots(say, claim, assessment.plan)
    return 0


def _done(session: FinishSession) -> str:
    """What was written down, in short."""
    from claimpack.core.values.numbers_said import how_many

    counts = (
        (len(session.parts), "part"),
        (len(session.labour), "labour entry"),
        (len(session.held), "held part"),
    )
    said = [how_many(count, what, "labour entries" if what == "labour entry" else f"{what}s") for count, what in counts]
    named = [text for (count, _), text in zip(counts, said, strict=True) if count]
    repaired = session.said("dates.repaired")
    return ", ".join([*named, f"repaired on {repaired}" if repaired else "not repaired yet"])
