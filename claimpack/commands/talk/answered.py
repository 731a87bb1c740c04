"""The answers of a conversation as the options of `open`, so that nobody types them twice."""

from __future__ import annotations

import shlex
from collections.abc import Iterable
from typing import TYPE_CHECKING

from claimpack.commands.desk.options import OPTION_OF

if TYPE_CHECKING:
    from claimpack.commands.talk.counter_session import CounterSession

_SERIAL = "unit.serials.@"
_OF_ONE_WORD = {("--hours", "none"): "--no-meter", ("--first-owner", "yes"): "--first-owner"}
_OF_ONE_WORD |= {("--never-fitted", "yes"): "--never-fitted"}
_OF_ONE_WORD |= {("--first-owner", "no"): "--second-owner", ("--registered", "never"): "--never-registered"}
_OF_NO_QUESTION = ("unit.hours", "dates.never_registered")


def options_of(answers: Iterable[str]) -> dict[str, str]:
    """The option that gave each key of a claim, for messages; answers name questions, in the order they were given."""
    given = [key for key in answers if key in OPTION_OF]
    roles = [key for key in given if key.startswith(_SERIAL)]
    named = {f"unit.serials[{place}].value": OPTION_OF[key] for place, key in enumerate(roles, start=1)}
    return {**named, **{key: OPTION_OF[key] for key in (*_OF_NO_QUESTION, *given) if key not in roles}}


def as_options(session: CounterSession, others: Iterable[str] = ()) -> str:
    """What was answered, as a command line that says it all again.

    Args:
        session: the conversation.
        others: options of the same command that answer no question, with their values.
    """
    words = ["claimpack", "open"]
    for key, option in OPTION_OF.items():
        said = "" if key in _OF_NO_QUESTION else session.said(key)
        if said:
            one = _OF_ONE_WORD.get((option, said))
            words += [one] if one else [option, said]
    return shlex.join([*words, *others])
