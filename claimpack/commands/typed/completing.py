"""What a shell offers while a command is typed: claims, parts, makers, models, shots, shelves, terms, stocks."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any, NamedTuple, get_args

from claimpack.core.values.words import folded
from claimpack.errors import ClaimpackError

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.world import World

_MOST = 300
# Signs that a shell takes for its own, were they put behind its prompt as they are.
_OF_THE_SHELL = re.compile(r"([^\w@%+=:,./-])")


class Offered(NamedTuple):
    """One word offered, as the command library takes it."""

    value: str
    type: str = "plain"
    help: str | None = None


class _Typing(NamedTuple):
    """The shop, what is typed of the other options and arguments by name, and the word begun."""

    desk: Desk
    others: Mapping[str, Any]
    begun: str


def offered(written: str, others: Mapping[str, Any], world: World, begun: str) -> list[Offered]:
    """The words that an option or argument may take and that begin as the one being typed; none outside of a shop.

    Args:
        written: how the option is written, as in `--maker`, or the argument called, as in CLAIM.
        others: what the others on the line say, by their names in Python.
        world: the world of the command.
        begun: the word as far as it is typed.
    """
    from claimpack.commands.desk.desk import Desk

    find = _finder(written)
    if find is None:
        return []
    # Somebody who types must not be told what is wrong with a file; the command itself will tell.
    try:
        words = find(_Typing(Desk(world), others, begun))
        fitting = [word for word in dict.fromkeys(words) if folded(word).startswith(folded(begun))]
    except ClaimpackError:
        return []
    shell = world.environ.get("_CLAIMPACK_COMPLETE", "")
    return [Offered(_as_typed(word, shell)) for word in fitting[:_MOST]]


def is_completed(written: str) -> bool:
    """Whether words are offered for an option or argument."""
    return _finder(written) is not None


def _finder(written: str) -> Callable[[_Typing], Iterable[str]] | None:
    # CLAIM stands first in what takes several things behind it, as in "CLAIM AMOUNT…".
    return _WORDS.get(written.strip("[]….").split("…")[0].split(" ")[0])


def _as_typed(word: str, shell: str) -> str:
    """A word as this shell wants it typed: some put in what they are offered as it is."""
    if _OF_THE_SHELL.search(word) is None or "zsh" in shell or "fish" in shell:
        return word
    if "bash" in shell:
        return _OF_THE_SHELL.sub(r"\\\1", word)
    return "'{}'".format(word.replace("'", "''"))


def _claims(typing: _Typing) -> Iterable[str]:
    # The latest first: of many only some are offered.
    return reversed(typing.desk.book.numbers(typing.begun.upper()))


def _codes(typing: _Typing) -> Iterable[str]:
    return (str(part.code) for part in typing.desk.book.held())


def _shelves(typing: _Typing) -> Iterable[str]:
    return sorted({part.shelf for part in typing.desk.book.held() if part.shelf})


def _makers(typing: _Typing) -> Iterable[str]:
    return (plan.maker for plan in typing.desk.plans)


def _models(typing: _Typing) -> Iterable[str]:
    """Models that plans name whole, then those that came in lately: most plans are for every model that begins so."""
    from claimpack.book.tables.entries import Wanted
    from claimpack.core.plans.makers import is_maker_of

    maker = str(typing.others.get("maker") or "")
    plans = [plan for plan in typing.desk.plans if not maker or is_maker_of(plan, maker)]
    lately = typing.desk.book.claims(Wanted(maker=maker, limit=_MOST))
    return (*(model for plan in plans for model in plan.models if "*" not in model), *(row.model for row in lately))


def _shots(typing: _Typing) -> Iterable[str]:
    desk, claim = typing.desk, str(typing.others.get("claim") or "")
    plan = desk.plan_of(desk.book.get(claim).claim) if claim else None
    return (shot for each in ([plan] if plan else desk.plans) for shot in each.requires.shot_words())


def _components(typing: _Typing) -> Iterable[str]:
    from claimpack.core.plans.component_words import components_offered

    return sorted({word for plan in typing.desk.plans for word in components_offered(plan)})


def _uses(typing: _Typing) -> Iterable[str]:
    from claimpack.core.plans.uses import uses_known

    return uses_known(typing.desk.plans)


def _templates(kind: str) -> Callable[[_Typing], Iterable[str]]:
    def found(typing: _Typing) -> Iterable[str]:
        from claimpack import template_files

        return sorted(template_files.templates(getattr(template_files, kind), typing.desk.places))

    return found


def _states(_typing: _Typing) -> Iterable[str]:
    from claimpack.core.events.event_kinds import State

    return (str(state) for state in get_args(State))


def _file_kinds(_typing: _Typing) -> Iterable[str]:
    from claimpack.file_kinds import FILE_KINDS

    return FILE_KINDS


def _one_of(*words: str) -> Callable[[_Typing], Iterable[str]]:
    return lambda _typing: words


_WORDS: Mapping[str, Callable[[_Typing], Iterable[str]]] = {
    "CLAIM": _claims,
    "CODE": _codes,
    "TEXT|CODE": _codes,
    "SHELF": _shelves,
    "KIND": _file_kinds,
    "PLAN": _templates("COVERAGE"),
    "--like": _claims,
    "--claim": _claims,
    "--maker": _makers,
    "--model": _models,
    "--component": _components,
    "--use": _uses,
    "--shot": _shots,
    "--shelf": _shelves,
    "--state": _states,
    "--terms": _templates("TERMS"),
    "--stock": _templates("TAG"),
    "--layout": _templates("PACKET"),
    "--form": _templates("FORMS"),
    "--campaign": _templates("CAMPAIGNS"),
    "--payer": _one_of("maker", "owner", "shop"),
    "--source": _one_of("stock", "maker"),
    "--case": _one_of("stock", "part", "campaign", "goodwill"),
}
