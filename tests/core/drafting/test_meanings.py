import pytest

from claimpack.core.drafting.meanings import Meaning, every_record, meanings_of
from claimpack.core.facts.record import Record
from claimpack.folder.file_kinds import FILE_KINDS, record_of


class Held(Record):
    """A part.

    Args:
        shelf: where it stands, as in `B3`.
        weight: how heavy it is, in kilograms, without
            its box.
    """

    shelf: str
    weight: int = 0


@pytest.mark.parametrize("kind", FILE_KINDS)
def test_every_key_of_every_record_a_file_holds_has_its_meaning(kind):
    lacking = {
        record.__name__: lacks
        for record in every_record(record_of(kind))
        if (lacks := set(record.model_fields) ^ set(meanings_of(record)))
    }
    assert not lacking, "write what each key means under Args in the docstring of its record"


def test_a_meaning_is_told_apart_from_its_example():
    assert meanings_of(Held)["shelf"] == Meaning("where it stands", "B3")


def test_a_meaning_may_go_over_several_lines():
    assert meanings_of(Held)["weight"] == Meaning("how heavy it is, in kilograms, without its box", "")
