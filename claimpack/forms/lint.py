"""What is doubtful in a mapping: keys that no claim has, fields that the form does not have."""

from __future__ import annotations

from collections.abc import Iterator

from claimpack.core.values.words import folded
from claimpack.errors import BadInput
from claimpack.forms.facts import must_be_a_key
from claimpack.forms.fields import FormField, FormFields
from claimpack.forms.mapping import Form, FormEntry
from claimpack.forms.values import misplaced, no_such_field
from claimpack.forms.writings import place_of


def lint(form: Form, found: FormFields) -> Iterator[str]:
    """Everything wrong with a mapping, a sentence each; of a row's fields only the first that is wrong.

    Args:
        form: the mapping.
        found: the fields of its PDF.
    """
    by_name = {field.name: field for field in found.fields}
    told: set[int] = set()
    for name, entry, row, down in form.every_entry():
        # the same entry fills a field of every row, and is wrong in all of them alike
        if id(entry) in told:
            continue
        place = place_of(entry, down)
        beside = misplaced(place, found.sizes) if place else ""
        wrong = [*_strange_keys(entry, row), *([beside] if beside else ())]
        wrong += [] if place else _in_field(name, entry, by_name)
        if wrong:
            told.add(id(entry))
        yield from (f"{name}: {each}" if not each.startswith("there is no field") else each for each in wrong)


def _strange_keys(entry: FormEntry, row: int) -> Iterator[str]:
    for key in entry.keys:
        try:
            must_be_a_key(key, in_row=row > 0)
        except BadInput as error:
            yield f"{error.what}. {error.do or error.why}"


def _in_field(name: str, entry: FormEntry, by_name: dict[str, FormField]) -> Iterator[str]:
    if name not in by_name:
        yield no_such_field(name, by_name)
    else:
        yield from _not_offered(by_name[name], entry)


def _not_offered(field: FormField, entry: FormEntry) -> Iterator[str]:
    """Words that a choice does not offer."""
    offered = {folded(option) for option in field.options}
    for word in entry.words.values():
        if offered and field.kind != "check box" and folded(word) not in offered:
            yield f"the form does not offer {word!r}; it has {', '.join(field.options)}"
