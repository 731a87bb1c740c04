"""Every key of a kind of file, with its meaning, an example and what it counts as while it is absent."""

from __future__ import annotations

import json
import re
import tomllib
import types
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import Annotated, Any, Literal, NamedTuple, Union, get_args, get_origin

from pydantic import TypeAdapter, ValidationError
from pydantic.fields import FieldInfo

from claimpack.core.drafting.json_schema import marks_of, plain_default
from claimpack.core.drafting.meanings import Meaning, meanings_of, records_in
from claimpack.core.facts.keys import keys_of
from claimpack.core.facts.record import Record
from claimpack.core.values.money import plain
from claimpack.core.values.periods import Period
from claimpack.core.values.words import folded, nearest

_STANDING = ("true", "2026-02-24", "2026-02-24T09:10:00", "12.50", "12", '"…"', '["…"]')
"""What may stand for a value of any kind, the narrowest first."""


_ALIKE = 0.8
"""How near a word must be to one that is said of a key, to be that one mistyped."""

OTHER_WORDS = {
    "prorate": ("window.shares",),
    "prorated": ("window.shares",),
    "pro rata": ("window.shares",),
    "proration": ("window.shares",),
    "mileage": ("pays.extras", "window.limits"),
    "odometer": ("window.limits",),
    "transferable": ("window.owners", "window.first_owner_only"),
    "transferred": ("window.owners", "window.first_owner_only"),
    "second owner": ("window.owners", "window.first_owner_only"),
    "commercial": ("uses", "window.uses"),
    "residential": ("uses", "window.uses"),
    "sales tax": ("pays.tax",),
    "vat": ("pays.tax",),
    "markup": ("pays.parts_handling",),
    "shipping": ("pays.extras",),
    "excess": ("pays.deductible",),
    "rma": ("requires.part_returned_first",),
}
"""The keys that people mean by words which the meanings of keys do not use."""


class Key(NamedTuple):
    """One key of a file.

    Args:
        path: its name below those of the tables it stands in, as in `window.limits.meter`.
        table: the line of the file that it stands below; empty at the top of the file.
        means: what it means, and in which unit.
        example: what may stand there, as it is written; for a table the line that begins it.
        choices: the words it takes, where there are no others.
        needed: whether the file, or the table, must have it.
        absent: what it counts as while it is absent, as it would be written; empty where that is no one value.
    """

    path: str
    table: str
    means: str
    example: str
    choices: tuple[str, ...]
    needed: bool
    absent: str

    @property
    def name(self) -> str:
        """The key alone."""
        return self.path.rpartition(".")[2]


def key_list(kind: type[Record]) -> tuple[Key, ...]:
    """Every key of the file that a record stands for: those of its tables after its own, each kind of table once."""
    return tuple(_keys(kind, "", "", {kind}))


def _keys(record: type[Record], path: str, table: str, told: set[type[Record]]) -> Iterator[Key]:
    meanings, inner = meanings_of(record), []
    for key, name in keys_of(record).items():
        field = record.model_fields[name]
        yield _key(field, meanings[name], f"{path}{key}", table)
        inner += [(f"{path}{key}", one, _is_list(field.annotation)) for one in records_in(field.annotation)]
    for below, one, is_list in inner:
        if one not in told:
            told.add(one)
            yield from _keys(one, f"{below}.", _table(below, table, is_list=is_list), told)


def _is_list(annotation: Any) -> bool:
    bare, _ = marks_of(annotation)
    arms = get_args(bare) if get_origin(bare) in (Union, types.UnionType) else ()
    return get_origin(bare) is tuple or any(_is_list(arm) for arm in arms)


def _table(path: str, above: str, *, is_list: bool) -> str:
    """The line below which the keys of a table stand; inside another table they stand in braces."""
    if above:
        return f"{above} {path.rpartition('.')[2]} = {'[{ }]' if is_list else '{ }'}".replace("[{ }] ", "").strip()
    return f"[[{path}]]" if is_list else f"[{path}]"


def _key(field: FieldInfo, meaning: Meaning, path: str, table: str) -> Key:
    default, choices = plain_default(field), _choices(field.annotation)
    is_table = not table and any(records_in(field.annotation))
    return Key(
        path=path,
        table=table,
        means=meaning.says,
        example=example_of(field, meaning.example)
        or (_table(path, "", is_list=_is_list(field.annotation)) if is_table else ""),
        choices=tuple(map(str, choices)) if len(choices) > 1 else (),
        needed=field.is_required(),
        absent="" if default is None else as_toml(default),
    )


def _choices(annotation: Any) -> tuple[Any, ...]:
    bare, _ = marks_of(annotation)
    if get_origin(bare) is Literal:
        return get_args(bare)
    return tuple(choice for arm in get_args(bare) for choice in _choices(arm))


def example_of(field: FieldInfo, said: str) -> str:
    """What may stand for a field, as TOML; empty where nothing short may.

    Args:
        field: the field.
        said: the example of its meaning, in quotes or without; empty for one of its kind.
    """
    whole: Any = Annotated[field.annotation, *(field.metadata or [None])]
    takes: TypeAdapter[Any] = TypeAdapter(whole)
    own = [said, json.dumps(said, ensure_ascii=False)] if said else list(_by_kind(field))
    return next((text for text in own if _is_taken(takes, text)), "")


def _by_kind(field: FieldInfo) -> Iterator[str]:
    default, choices = field.default, _choices(field.annotation)
    if isinstance(default, bool):
        yield as_toml(not default)
    yield from (as_toml(choice) for choice in (*(one for one in choices if one != default), *choices))
    if isinstance(default, Decimal):
        yield plain(default)
    yield from _STANDING


def _is_taken(takes: TypeAdapter[Any], text: str) -> bool:
    try:
        takes.validate_python(tomllib.loads(f"x = {text}", parse_float=Decimal)["x"])
    except (tomllib.TOMLDecodeError, ValidationError):
        return False
    return True


def as_toml(value: Any) -> str:
    """A value as it is written on one line of a file; amounts and periods in quotes."""
    if isinstance(value, Mapping):
        pairs = (f"{_key_as_toml(key)} = {as_toml(each)}" for key, each in value.items())
        return f"{{{', '.join(pairs)}}}"
    if isinstance(value, Decimal):
        return f'"{plain(value)}"'
    if isinstance(value, Period):
        return f'"{value}"'
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, (list, tuple)):
        return f"[{', '.join(map(as_toml, value))}]"
    return json.dumps(value, ensure_ascii=False)


def _key_as_toml(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else json.dumps(key, ensure_ascii=False)


class Found(NamedTuple):
    """The keys that were looked for, and the words they were found by where those asked for found none."""

    keys: tuple[Key, ...]
    instead: str = ""


def filtered(keys: Iterable[Key], words: Sequence[str]) -> Found:
    """The keys of which every word is said somewhere: in the name, the meaning, the example or the choices.

    Where there are none, those that people mean by the words; else those found by the words most like them.
    """
    known = tuple(keys)
    found = _saying(known, words)
    if found:
        return Found(found)
    meant = OTHER_WORDS.get(folded(" ".join(words)), ())
    of_others = tuple(key for key in known if any(f"{key.path}.".startswith(f"{path}.") for path in meant))
    if of_others:
        return Found(of_others, ", ".join(path for path in meant if any(key.path == path for key in of_others)))
    said = {word for key in known for word in re.findall(r"\w{3,}", folded(" ".join(_said(key))))}
    near = [nearest(word, said, _ALIKE) or word for word in words]
    found = _saying(known, near)
    return Found(found, " ".join(near) if found else "")


def _saying(keys: Iterable[Key], words: Sequence[str]) -> tuple[Key, ...]:
    wanted = [folded(word) for word in words]
    return tuple(key for key in keys if all(word in folded(" ".join(_said(key))) for word in wanted))


def _said(key: Key) -> tuple[str, ...]:
    return (key.path.replace(".", " "), key.means, key.example, *key.choices)
