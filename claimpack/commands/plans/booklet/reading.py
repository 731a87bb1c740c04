"""Answers about a warranty booklet: how a typed one is read, and which questions wait for another."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from claimpack.core.plans.component_words import refuse_no_component
from claimpack.core.values.money import exact
from claimpack.core.values.typed.periods import list_written, percent_written, period_written

NONE = ("none", "no", "nothing", "never")


def time(typed: str) -> Any:
    """A period; None where there is none."""
    return None if typed.casefold() in NONE else period_written(typed)


def rest_or_time(typed: str) -> Any:
    """A period, or what is left of another one."""
    return "rest" if typed.casefold() == "rest" else time(typed)


def number(typed: str) -> Any:
    """An amount or a number of hours; None where there is none."""
    return None if typed.casefold() in NONE else exact(typed)


def share(typed: str) -> Any:
    """A part of the whole; None where there is none."""
    return None if typed.casefold() in NONE else percent_written(typed)


def words(typed: str) -> list[str]:
    """Words with commas between."""
    return [] if typed.casefold() in NONE else list_written(typed)


def components(typed: str) -> list[str]:
    """Words for components, with commas between."""
    found = words(typed)
    for word in found:
        refuse_no_component(word, "")
    return found


def yes(typed: str) -> bool:
    """Yes or no."""
    if typed.casefold() in ("y", "yes"):
        return True
    if typed.casefold() in ("n", "no"):
        return False
    raise ValueError("Answer yes or no.")


def some_of(choices: tuple[str, ...]) -> Callable[[str], list[str]]:
    """Some of a few words, with commas between."""

    def read(typed: str) -> list[str]:
        found = words(typed)
        stray = next((word for word in found if word not in choices), None)
        if stray:
            raise ValueError(f"{stray!r} is none of {', '.join(choices)}.")
        return found

    return read


def answered(key: str) -> Callable[[Any], bool]:
    """Whether a question was answered with anything but no or none."""
    return lambda session: bool(session.values.get(key))


def either(*keys: str) -> Callable[[Any], bool]:
    """Whether one of several questions was."""
    return lambda session: any(session.values.get(key) for key in keys)
