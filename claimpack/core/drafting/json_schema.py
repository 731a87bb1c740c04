"""Records as JSON Schema, by which editors check a file and complete its keys while it is written."""

from __future__ import annotations

import types
from collections.abc import Callable, Iterator, Mapping
from decimal import Decimal
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import AfterValidator, BeforeValidator
from pydantic.fields import FieldInfo

from claimpack.core.drafting.meanings import every_record, meanings_of
from claimpack.core.facts.fields import known_currency
from claimpack.core.facts.keys import keys_of
from claimpack.core.facts.record import Record
from claimpack.core.values.days import only_a_date, with_a_time
from claimpack.core.values.money import MINOR_UNITS, part_of_one, plain
from claimpack.core.values.periods import Period, period
from claimpack.core.values.written import WrittenAs

_DAY = r"(19|2[0-9])[0-9]{2}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])"
_NUMBER = r"([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]+)?\s*$"
_NUMBERS: Mapping[str, str] = {
    "any": rf"^\s*[+-]?{_NUMBER}",
    "not negative": rf"^\s*(\+?|-(?=[0.]+\s*$)){_NUMBER}",
    "positive": rf"^\s*\+?(?=[0.]*[1-9]){_NUMBER}",
    "part of one": r"^\s*\+?0*(\.[0-9]+|0(\.[0-9]*)?|1(\.0*)?)\s*$",
}
_CHECKED: Mapping[Callable[..., Any], dict[str, Any]] = {
    only_a_date: {"type": "string", "format": "date", "pattern": f"^{_DAY}$"},
    with_a_time: {"type": "string", "pattern": f"^{_DAY}[T ][0-9]{{2}}:[0-9]{{2}}"},
    period: {"type": "string", "pattern": "^P(?=.*[1-9])([0-9]{1,9}Y)?([0-9]{1,9}M)?([0-9]{1,9}W)?([0-9]{1,9}D)?$"},
    known_currency: {"type": "string", "enum": sorted(MINOR_UNITS)},
}
_LIMITS = {
    "str": {"min_length": "minLength", "max_length": "maxLength", "pattern": "pattern"},
    "list": {"min_length": "minItems", "max_length": "maxItems"},
    "table": {"min_length": "minProperties", "max_length": "maxProperties"},
    "number": {"ge": "minimum", "gt": "exclusiveMinimum", "le": "maximum"},
}
_PLAIN = {str: "string", bool: "boolean", int: "integer"}


def json_schema(kind: type[Record], title: str) -> dict[str, Any]:
    """The JSON Schema of a file that holds a record.

    What several keys say together it does not know: a file that it takes may still contradict itself.

    Args:
        kind: the record.
        title: what the file is called.

    Source: JSON Schema, draft 2020-12. A date without quotes is a text to it, as TOML editors read it.
    """
    whole, *inner = every_record(kind)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": title,
        **_record(whole),
        "$defs": {record.__name__: _record(record) for record in inner},
    }


def _record(record: type[Record]) -> dict[str, Any]:
    fields, meanings = record.model_fields, meanings_of(record)
    properties = {}
    for key, name in keys_of(record).items():
        meaning, field = meanings.get(name), fields[name]
        described = _of(field.annotation, field.metadata)
        if meaning:
            example = f", as in {meaning.example}" if meaning.example else ""
            described |= {"description": f"{meaning.says[:1].upper()}{meaning.says[1:]}{example}."}
        default = plain_default(field)
        properties[key] = described | ({} if default is None else {"default": default})
    needed = [key for key, name in keys_of(record).items() if fields[name].is_required()]
    return {
        "type": "object",
        "description": (record.__doc__ or "").partition("\n")[0],
        "properties": properties,
        **_required(needed, properties),
        "additionalProperties": False,
    }


def _required(needed: list[str], properties: Mapping[str, Any]) -> dict[str, Any]:
    """The keys that must be there; a file that is like another takes from it what it does not say itself."""
    if "like" in properties:
        return {"anyOf": [{"required": needed}, {"required": ["like"]}]}
    return {"required": needed} if needed else {}


def plain_default(field: FieldInfo) -> str | int | bool | None:
    """What a key counts as while it is absent, where that is one plain value; else None."""
    default = field.default
    if isinstance(default, Decimal):
        return plain(default)
    if isinstance(default, Period):
        return str(default)
    return default if isinstance(default, (str, int)) and default != "" else None


def marks_of(annotation: Any, marks: Any = ()) -> tuple[Any, tuple[Any, ...]]:
    """A type without its marks, and every mark, those of `Field` one by one."""
    inner = list(marks)
    while get_origin(annotation) is Annotated:
        annotation, *more = get_args(annotation)
        inner = [*more, *inner]
    return annotation, tuple(_flat(inner))


def _flat(marks: Any) -> Iterator[Any]:
    for mark in marks:
        if isinstance(mark, FieldInfo):
            yield from mark.metadata
        else:
            yield mark


def _of(annotation: Any, marks: Any = ()) -> dict[str, Any]:
    bare, marks = marks_of(annotation, marks)
    written = next((mark.type_ for mark in marks if isinstance(mark, WrittenAs)), None)
    if written is not None:
        return _of(written)
    checks = [mark.func for mark in marks if isinstance(mark, (BeforeValidator, AfterValidator))]
    known = next((_CHECKED[check] for check in checks if check in _CHECKED), None)
    if known is not None:
        return dict(known)
    if bare is Decimal:
        return _number(marks, part_of_one in checks)
    if get_origin(bare) in (Union, types.UnionType):
        return _one_of([_of(arm) for arm in get_args(bare) if arm is not type(None)])
    return _plainly(bare, marks)


def _plainly(bare: Any, marks: tuple[Any, ...]) -> dict[str, Any]:
    origin, inner = get_origin(bare), get_args(bare)
    if origin is Literal:
        return {"enum": list(inner)}
    if origin is tuple:
        return _list(inner) | _limits("list", marks)
    if origin is dict:
        names = _of(inner[0])
        return {
            "type": "object",
            **({"propertyNames": names} if names != {"type": "string"} else {}),
            "additionalProperties": _of(inner[1]),
            **_limits("table", marks),
        }
    if isinstance(bare, type) and issubclass(bare, Record):
        return {"$ref": f"#/$defs/{bare.__name__}"}
    if bare is str:
        limits = _limits("str", marks)
        return {"type": "string", **limits, **({"pattern": r"\S"} if limits.get("minLength") == 1 else {}), **limits}
    return {"type": _PLAIN[bare], **_limits("number", marks)} if bare in _PLAIN else {}


def _list(inner: tuple[Any, ...]) -> dict[str, Any]:
    if inner[-1] is Ellipsis:
        return {"type": "array", "items": _of(inner[0])}
    each = [_of(one) for one in inner]
    return {"type": "array", "prefixItems": each, "items": False, "minItems": len(each)}


def _number(marks: tuple[Any, ...], is_part: bool) -> dict[str, Any]:
    limits = _limits("number", marks)
    is_part = is_part or limits.get("maximum") == 1
    kind = "positive" if limits.get("exclusiveMinimum") == 0 else "not negative" if "minimum" in limits else "any"
    pattern = _NUMBERS["part of one" if is_part else kind]
    return {"type": ["number", "string"], **limits, **({"maximum": 1} if is_part else {}), "pattern": pattern}


def _limits(of: str, marks: tuple[Any, ...]) -> dict[str, Any]:
    found = {}
    for mark in marks:
        for name, word in _LIMITS[of].items():
            limit = getattr(mark, name, None)
            if isinstance(limit, (int, str)) and not isinstance(limit, bool):
                found[word] = limit
    return found


def _one_of(arms: list[dict[str, Any]]) -> dict[str, Any]:
    if all(arm.keys() == {"enum"} for arm in arms):
        return {"enum": [choice for arm in arms for choice in arm["enum"]]}
    return arms[0] if len(arms) == 1 else {"anyOf": arms}
