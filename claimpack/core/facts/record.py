"""What every record keeps to: its fields never change, a key it does not know is an error, its checks hold.

A record that is written as it is declared is read here, in a few lines. Everything else is pydantic's (`by_library`):
whatever is not so plain it reads, or refuses with every problem named, and it writes records down. Both go by the same
marks, so that they cannot say two things; `tests/core/facts/test_record.py` compares them. pydantic takes longer to
load, and to learn a hundred records, than a claim takes to be judged.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from typing import TYPE_CHECKING, Any, ClassVar, NoReturn, Self

from claimpack.core.facts.plain_reading import Declared, not_plain
from claimpack.core.values.marks import CHECKS_RECORD

if TYPE_CHECKING:
    from pydantic import BaseModel, ConfigDict
    from pydantic.fields import FieldInfo

_MANY = 200
"""Records of a kind after which pydantic's own reader, once it is built, has saved the time to build it."""


class _Kind(type):
    """The kind of all records."""

    @property
    def model_fields(cls) -> dict[str, FieldInfo]:
        """The fields as pydantic knows them."""
        from claimpack.core.facts.by_library import model_of

        return model_of(cls).model_fields


class PlainRecord(metaclass=_Kind):
    """A record as it is when the program runs; to pydantic it offers what a model of its own does."""

    __slots__ = ("__dict__", "__pydantic_extra__", "__pydantic_fields_set__", "__pydantic_private__")
    declared: dict[str, Declared] = {}
    _keys: dict[str, Declared] = {}
    checks: dict[str, Callable[[Any], Any]] = {}
    _adapter: Any = None
    _read = 0

    def __init_subclass__(cls) -> None:
        own = cls.__dict__
        annotations = own.get("__annotations__", {})
        fields = {name: Declared(name, told, own.get(name, ...), cls.__module__) for name, told in annotations.items()}
        cls.declared = {**cls.declared, **fields}
        cls._keys = {field.key: field for field in cls.declared.values()}
        cls.checks = cls.checks | {name: one for name, one in own.items() if hasattr(one, CHECKS_RECORD)}
        cls._adapter, cls._read = None, 0

    def __init__(self, /, **keys: Any) -> None:
        cls = type(self)
        if cls._are_few():
            with suppress(ValueError):
                cls._fill(self, keys)
                return
        cls._library().validator.validate_python(keys, self_instance=self)

    @classmethod
    def _are_few(cls) -> bool:
        """Whether so few records of the kind were read that another one is best read here."""
        cls._read += 1
        return cls._read <= _MANY

    @classmethod
    def _library(cls) -> Any:
        if cls._adapter is None:
            from claimpack.core.facts.by_library import adapter_of

            cls._adapter = adapter_of(cls)
        return cls._adapter

    @classmethod
    def _fill(cls, record: Self, keys: Mapping[str, Any]) -> Self:
        """A record with the keys read into it.

        Raises:
            ValueError: something is wrong with them, or is not plain.
        """
        if not keys.keys() <= cls._keys.keys():
            raise not_plain()
        values = {}
        for name, field in cls.declared.items():
            if field.key in keys:
                values[name] = field.read(keys[field.key])
            elif field.is_required:
                raise not_plain()
            else:
                values[name] = field.absent()
        object.__setattr__(record, "__dict__", values)
        object.__setattr__(record, "__pydantic_fields_set__", {cls._keys[key].name for key in keys})
        for check in cls.checks.values():
            check(record)
        return record

    @classmethod
    def read_plainly(cls, written: Any) -> Self:
        """The record that keys tell, or that is one already.

        Raises:
            ValueError: something is wrong with them, or is not plain.
        """
        if isinstance(written, cls):
            return written
        if type(written) is not dict:
            raise not_plain()
        return cls._fill(object.__new__(cls), written)

    @classmethod
    def model_validate(cls, written: Any) -> Self:
        """The record that keys tell.

        Raises:
            pydantic.ValidationError: something is wrong with them.
        """
        if cls._are_few():
            with suppress(ValueError):
                return cls.read_plainly(written)
        found: Self = cls._library().validator.validate_python(written)
        return found

    @classmethod
    def model_validate_json(cls, text: str | bytes) -> Self:
        """The record that JSON tells.

        Raises:
            pydantic.ValidationError: it is no JSON, or something is wrong with it.
        """
        if cls._are_few():
            import json

            with suppress(ValueError, RecursionError):
                # of bytes the library would guess how they are written, and JSON is UTF-8
                said = text if isinstance(text, str) else text.decode()
                return cls.read_plainly(json.loads(said, parse_float=_not_plain, parse_constant=_not_plain))
        found: Self = cls._library().validator.validate_json(text)
        return found

    @classmethod
    def model_construct(cls, **values: Any) -> Self:
        """The record of values that need no check, by their names or keys."""
        record, given = object.__new__(cls), set()
        filled = {}
        for name, field in cls.declared.items():
            if field.key in values or name in values:
                filled[name] = values[field.key] if field.key in values else values[name]
                given.add(name)
            elif not field.is_required:
                filled[name] = field.absent()
        object.__setattr__(record, "__dict__", filled)
        object.__setattr__(record, "__pydantic_fields_set__", given)
        return record

    def model_copy(self, *, update: Mapping[str, Any] | None = None) -> Self:
        """The same record with other values for some fields, which are not checked."""
        copied: Self = _restored(
            type(self), {**self.__dict__, **(update or {})}, {*self.model_fields_set, *(update or {})}
        )
        return copied

    @property
    def model_fields_set(self) -> set[str]:
        """The names of the fields that were given."""
        given: set[str] = getattr(self, "__pydantic_fields_set__")  # noqa: B009 - pydantic's slot
        return given

    def model_dump(self, **how: Any) -> Any:
        """The record as keys and values, as pydantic writes it."""
        return self._library().serializer.to_python(self, **how)

    def model_dump_json(self, **how: Any) -> str:
        """The record as JSON, as pydantic writes it."""
        return str(self._library().serializer.to_json(self, **how), "utf-8")

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: Any) -> Any:
        from claimpack.core.facts.by_library import schema_of

        return schema_of(cls, handler)

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise AttributeError(f"{name}: a record does not change; make another by model_copy")

    def __eq__(self, other: object) -> bool:
        return self.__dict__ == other.__dict__ if type(other) is type(self) else NotImplemented

    def __hash__(self) -> int:
        return hash((type(self), *self.__dict__.values()))

    def __iter__(self) -> Iterator[tuple[str, Any]]:
        return iter(self.__dict__.items())

    def __repr__(self) -> str:
        return f"{type(self).__name__}({', '.join(f'{name}={value!r}' for name, value in self)})"

    def __reduce__(self) -> Any:
        return _restored, (type(self), self.__dict__, self.model_fields_set)


def _restored(kind: type[Any], values: dict[str, Any], given: set[str]) -> Any:
    record = object.__new__(kind)
    object.__setattr__(record, "__dict__", dict(values))
    object.__setattr__(record, "__pydantic_fields_set__", given)
    return record


def _not_plain(_: str) -> NoReturn:
    raise not_plain()


if TYPE_CHECKING:
    # To the type checker a record is the model that pydantic makes of it: its fields, and what makes one.
    class Record(BaseModel):
        """A frozen record; a key it does not know is an error."""

        model_config = ConfigDict(frozen=True, extra="forbid")
        declared: ClassVar[dict[str, Declared]]
else:

    class Record(PlainRecord):
        """A frozen record; a key it does not know is an error.

        A default that is a record saying nothing is `model_construct()`ed: there is nothing to read.
        """
