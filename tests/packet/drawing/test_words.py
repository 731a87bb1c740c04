from __future__ import annotations

from string import Formatter

from drawn_packets import layout_keys

from claimpack.packet.drawing.words import PLACES, Words


def test_every_fact_belongs_to_a_word_that_is_printed():
    assert set(PLACES) <= set(Words.model_fields)


def test_the_english_words_carry_exactly_those_facts():
    carried = {
        key: frozenset(name for _, name, _, _ in Formatter().parse(said) if name)
        for key, said in layout_keys()["words"].items()
    }
    assert {key: names for key, names in carried.items() if names} == dict(PLACES)
