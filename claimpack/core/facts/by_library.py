"""Records as pydantic knows them: it reads what is not plainly written, names every problem, writes records down."""

from __future__ import annotations

import types
from functools import cache
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

import pydantic
from pydantic import BaseModel, ConfigDict, TypeAdapter, create_model

from claimpack.core.facts.plain_reading import LONGEST, Declared
from claimpack.core.values import marks
from claimpack.core.values.written import WrittenAs

_CONFIG = ConfigDict(
    # an unknown key is a slip that would otherwise be lost without a word; built late, as few records are needed
    frozen=True,
    extra="forbid",
    str_max_length=LONGEST,
    defer_build=True,
    serialize_by_alias=True,
)


@cache
def adapter_of(record: type[Any]) -> TypeAdapter[Any]:
    """What reads and writes the records of a kind."""
    return TypeAdapter(record)


@cache
def model_of(record: Any) -> type[BaseModel]:
    """The model that has the fields and checks of a record; the records of a kind are none of it."""
    declared = get_type_hints(record, include_extras=True)
    fields: dict[str, Any] = {
        name: (in_its_words(declared[name]), _default(field)) for name, field in record.declared.items()
    }
    checks: dict[str, Any] = {
        name: pydantic.model_validator(mode="after")(check) for name, check in record.checks.items()
    }
    made: type[BaseModel] = create_model(
        record.__name__,
        __config__=_CONFIG,
        __doc__=record.__doc__,
        __module__=record.__module__,
        __validators__=checks,
        **fields,
    )
    return made


def schema_of(record: Any, handler: Any) -> Any:
    """The schema by which pydantic reads a record: that of its model, but it is the record that it fills."""
    schema = handler(model_of(record))
    whole = handler.resolve_ref_schema(schema)
    # the checks of the whole lie around the model itself
    while whole["type"] != "model":
        whole = whole["schema"]
    whole["cls"] = record
    return schema


def _default(field: Declared) -> Any:
    return pydantic.Field(field.default, alias=None if field.key == field.name else field.key, **field.limits)


def in_its_words(declared: Any) -> Any:
    """A type with pydantic's marks in the place of ours."""
    origin, inner = get_origin(declared), get_args(declared)
    if origin is Annotated:
        return Annotated[in_its_words(inner[0]), *(_mark(mark) for mark in inner[1:])]
    if origin is None or origin is Literal:
        return declared
    arms = tuple(in_its_words(one) for one in inner)
    return Union[arms] if origin in (Union, types.UnionType) else origin[arms]  # noqa: UP007 - as many arms as there are


def _mark(mark: Any) -> Any:
    if isinstance(mark, marks.Told):
        return pydantic.Field(**mark.limits)
    if isinstance(mark, WrittenAs):
        return WrittenAs(in_its_words(mark.type_))
    return getattr(pydantic, type(mark).__name__)(mark.func)
