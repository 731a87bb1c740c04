"""Records made from the keys a user wrote: every problem named at once, with the nearest known key."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from decimal import Decimal
from typing import TYPE_CHECKING, Any, Literal, NamedTuple, TypeVar, get_args, get_origin

from claimpack.core.facts.record import Record
from claimpack.core.values.words import did_you_mean, nearest, some_lines
from claimpack.errors import BadInput

if TYPE_CHECKING:
    from pydantic_core import PydanticCustomError

CONTRADICTION = "contradiction"
"""How a record's refusal for a contradiction is known."""


class Contradiction(NamedTuple):
    """A sentence with `{}` where each of the keys is named, as in `{} 2026-02-20 is before {} 2026-03-14`."""

    says: str
    keys: tuple[str, ...]


def contradiction(clashes: Sequence[Contradiction]) -> PydanticCustomError:
    """The refusal of a record whose keys contradict each other; it carries the clashes, to be told in other names."""
    from pydantic_core import PydanticCustomError

    told = clashes_in_words(clashes, str)
    return PydanticCustomError(CONTRADICTION, "{told}", {"told": told, "clashes": tuple(clashes)})


def clashes_in_words(clashes: Iterable[Contradiction], name: Callable[[str], str]) -> str:
    """The sentences, every key called by its name."""
    return "; ".join(clash.says.format(*map(name, clash.keys)) for clash in clashes)


def keys_of(kind: type[Record]) -> dict[str, str]:
    """The keys of a record as a user writes them, in order, each with the name of its field."""
    return {field.key: name for name, field in kind.declared.items()}


AnyRecord = TypeVar("AnyRecord", bound=Record)

_MOST, _FEW = 12, 2


def record_from(
    kind: type[AnyRecord], keys: Mapping[str, Any], source: str, options: Mapping[str, str] | None = None
) -> AnyRecord:
    """A record from what the user wrote.

    Args:
        kind: the record wanted.
        keys: the parsed file, or what the options of a command say.
        source: the file's name, or the command's, for the message; empty where the values alone say what is meant.
        options: where the values were given to a command: the option or argument that gave each key, by key, as in
            `dates.presented` or `unit.serials[1].value`; messages then name what the user typed.

    Raises:
        BadInput: with a line for every key that is unknown, absent or wrong, at most twelve.
    """
    try:
        return kind.model_validate(keys)
    # pydantic's own error is one, and only what is wrong is worth loading it for
    except ValueError as error:
        from pydantic import ValidationError

        if not isinstance(error, ValidationError):
            raise
        told = _telling(error.errors())
        # Beyond those that are shown only their number counts, and finding the nearest key takes a while.
        problems = [_problem(kind, found, options) for found in told[:_MOST]] + [""] * len(told[_MOST:])
    raise refused(source, problems)


def refused(source: str, problems: Sequence[str]) -> BadInput:
    """The error that names every problem of a file, at most twelve of them one by one."""
    told, shown = f"{source}: " if source else "", some_lines(problems, _MOST)
    if len(shown) == 1:
        return BadInput(f"{told}{shown[0]}", do="Correct it and try again.")
    return BadInput(
        f"{told}{len(problems)} things are wrong",
        do="Correct them and try again.",
        problems=tuple(f"  {line}" for line in shown),
    )


def _telling(errors: Sequence[Any]) -> list[Any]:
    """The errors without those that only follow from another: a list is not too short when an item of it is wrong."""
    # a list whose entries could not be read is short of them: told once, where the entry is wrong
    wrong_inside = {error["loc"][:-1] for error in errors}
    return [error for error in errors if error["type"] != "too_short" or error["loc"] not in wrong_inside]


def _problem(kind: type[Record], found: Any, options: Mapping[str, str] | None) -> str:
    if found["loc"] and found["loc"][-1] == "[key]":
        *table, key, _ = found["loc"]
        known = str(found.get("ctx", {}).get("expected", "")).replace(" or ", ", ").replace("'", "").split(", ")
        return f"key {_dotted((*table, key))} is not known. {_hint(str(key), known)}"
    place = _dotted(found["loc"])
    if found["type"] == "extra_forbidden":
        known = _known_keys(kind, found["loc"][:-1])
        return f"key {place} is not known. {_hint(str(found['loc'][-1]), known)}".rstrip()
    named = f"key {place}" if options is None and place else (options or {}).get(place, "")
    if found["type"] == "missing":
        return f"{named or f'key {place}'} is missing"
    said = _plainly(found, place, options or {})
    if found["type"] == "model_type":
        said += _as_a_table(_record_at(kind, found["loc"]))
    return f"{named}: {said}" if named else said


def _hint(word: str, known: list[str]) -> str:
    near = nearest(word, known)
    return f"Did you mean {near}?" if near else f"Known here: {', '.join(known)}."


def in_a_row(key: str) -> str:
    """A key as it is told: what failed besides the first failure is the second failure, and so on."""
    return re.sub(r"^failure\.also\[(\d+)\]", lambda found: f"failure[{int(found[1]) + 1}]", key)


def _dotted(loc: tuple[int | str, ...]) -> str:
    text = ""
    for step in loc:
        text += f"[{step + 1}]" if isinstance(step, int) else f".{step}" if text else str(step)
    text = in_a_row(text)
    return text if len(text) <= 200 else f"{text[:197]}..."


_LONGEST = 60
"""Letters of a value that a message repeats."""

_PLAINLY = {
    "greater_than_equal": "{input} is below {ge}",
    "greater_than": "{input} is not above {gt}",
    "less_than_equal": "{input} is above {le}",
    "string_type": "must be text in quotes, not {input}",
    "string_too_long": "is longer than {max_length} characters",
    "too_long": "is longer than {max_length} characters",
    "string_too_short": "must not be empty",
    "too_short": "must not be empty",
    "tuple_type": "must be a list in [ ]",
    "bool_type": "must be true or false, not {input}",
    "bool_parsing": "must be true or false, not {input}",
    "date_from_datetime_parsing": "{input} is not a date such as 2026-02-05",
    "date_parsing": "{input} is not a date such as 2026-02-05",
    "date_type": "{input} is not a date such as 2026-02-05",
    "datetime_from_date_parsing": "{input} is not a time such as 2026-02-24T09:10:00",
    "datetime_parsing": "{input} is not a time such as 2026-02-24T09:10:00",
    "datetime_type": "{input} is not a time such as 2026-02-24T09:10:00",
    "model_type": "must be a table of keys",
    "dict_type": "must be a table of keys",
}


def _plainly(found: Any, place: str, options: Mapping[str, str]) -> str:
    given, details = found.get("input"), found.get("ctx", {})
    if found["type"] == CONTRADICTION:
        return clashes_in_words(details["clashes"], lambda key: options.get(f"{place}.{key}" if place else key, key))
    if found["type"] == "value_error":
        said = str(details["error"])
        return said.replace(repr(given), _short(given)).replace(given, _short(given)) if _is_long(given) else said
    if found["type"] == "literal_error":
        return f"{_short(given)} is not one of {details['expected']}. {_meant(given, details['expected'])}".rstrip()
    if found["type"] == "too_long" and not isinstance(given, str):
        return f"has more than {details['max_length']} entries"
    if found["type"] in _PLAINLY:
        return _PLAINLY[found["type"]].format(input=_short(given), **details)
    # whatever the library says of what nobody thought of
    return str(found["msg"])


def _short(given: Any) -> str:
    text = repr(given) if isinstance(given, str) else str(given)
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 3]}..."


def _is_long(given: Any) -> bool:
    return isinstance(given, str) and len(repr(given)) > _LONGEST


def _meant(given: Any, expected: str) -> str:
    choices = expected.replace(" or ", ", ").replace("'", "").split(", ")
    return did_you_mean(given, choices) if isinstance(given, str) and nearest(given, choices) else ""


def _as_a_table(record: type[Record] | None) -> str:
    """The keys of a short table, or those it must have, as in `, as in {amount = "25.00", payer = "owner"}`."""
    if record is None:
        return ""
    fields = {key: record.model_fields[name] for key, name in keys_of(record).items()}
    told = {key: field for key, field in fields.items() if field.is_required() or len(fields) <= _FEW}
    if not told:
        return f"; known here: {', '.join(fields)}" if fields else ""
    return f", as in {{{', '.join(f'{key} = {_example(told[key].annotation)}' for key in told)}}}"


def _example(annotation: Any) -> str:
    choices = get_args(annotation) if get_origin(annotation) is Literal else ()
    return f'"{choices[0]}"' if choices else '"25.00"' if annotation is Decimal else '"…"'


def _known_keys(kind: type[Record], loc: tuple[int | str, ...]) -> list[str]:
    record = _record_at(kind, loc)
    return list(keys_of(record)) if record else []


def _record_at(kind: type[Record], loc: tuple[int | str, ...]) -> type[Record] | None:
    """The record that stands at a place of another one; None where there is none."""
    record: type[Record] | None = kind
    for step in loc:
        if record is None:
            return None
        if isinstance(step, str):
            named = keys_of(record).get(step, step)
            field = record.model_fields.get(named)
            record = _record_in(field.annotation) if field else None
    return record


def _record_in(annotation: Any) -> type[Record] | None:
    if isinstance(annotation, type) and issubclass(annotation, Record):
        return annotation
    return next((found for inner in get_args(annotation) if (found := _record_in(inner))), None)
