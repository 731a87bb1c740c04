from __future__ import annotations

import pytest
from drawn_packets import a_layout, layout_keys

from claimpack.core.holding.cautions import BROKEN, DEFER, FUEL, LITHIUM, WET_BATTERY
from claimpack.core.values.wording.sentence import SAYS, placeholders
from claimpack.core.values.wording.words import WORDS
from claimpack.errors import BadInput
from claimpack.packet.drawing.layout import layout_from
from claimpack.template_files import Places, whole_layout


def problems(**changes) -> str:
    with pytest.raises(BadInput) as refused:
        layout_from(layout_keys() | changes, "mine.toml")
    return "\n".join(refused.value.lines())


def test_the_english_layout_is_for_us_letter():
    layout = a_layout("letter")
    assert (layout.language, layout.page) == ("en-US", (612.0, 792.0))


def test_the_spanish_layout_is_for_a4():
    layout = a_layout("carta-a4")
    assert (layout.language, [round(side) for side in layout.page]) == ("es", [595, 842])


def test_the_spanish_layout_says_every_sentence_of_the_program():
    assert set(a_layout("carta-a4").says) == set(SAYS)


def test_a_spanish_sentence_carries_the_same_facts():
    says = a_layout("carta-a4").says
    assert [key for key in SAYS if placeholders(says[key]) != placeholders(SAYS[key])] == []


def test_the_spanish_layout_speaks_every_word_of_the_program():
    assert set(a_layout("carta-a4").spoken) == set(WORDS)


def test_the_spanish_layout_leaves_no_heading_in_english():
    english, spanish = (a_layout(name).words.model_dump() for name in ("letter", "carta-a4"))
    same = {key for key in english if english[key] == spanish[key]}
    assert same == {"no", "total", "size"}


def test_the_english_cautions_are_those_of_the_program():
    words = a_layout("letter").words
    printed = (words.hazard_fuel, words.hazard_lithium, words.hazard_wet_battery)
    assert (*printed, words.caution_broken, words.caution_defer) == (FUEL, LITHIUM, WET_BATTERY, BROKEN, DEFER)


def test_an_unknown_key_is_named_with_the_nearest_one():
    assert "key marigns is not known. Did you mean margins?" in problems(marigns={})


def test_an_unknown_word_is_named_with_the_nearest_one():
    words = layout_keys()["words"] | {"complain": "Complaint"}
    assert "key words.complain is not known. Did you mean complaint?" in problems(words=words)


def test_a_missing_word_is_named():
    words = {key: said for key, said in layout_keys()["words"].items() if key != "cause"}
    assert "mine.toml: key words.cause is missing" in problems(words=words)


def test_an_unknown_sentence_is_named_with_the_nearest_one():
    assert "says.\"age.insid\" is no sentence of the program; did you mean 'age.inside'?" in problems(
        says={"age.insid": "Inside."}
    )


def test_an_unknown_spoken_word_is_named():
    assert "spoken.\"montth\" is no word of the program; did you mean 'month'?" in problems(spoken={"montth": "mes"})


def test_a_sentence_that_leaves_out_a_fact_is_refused():
    assert 'says."price.clocked" leaves out {clocked}' in problems(says={"price.clocked": "Clocked."})


def test_a_sentence_that_asks_for_a_fact_it_is_not_given_is_refused():
    assert "asks for {owner}, which it is not given" in problems(says={"price.once": "Once, {owner}."})


@pytest.mark.parametrize("template", ["{clocked", "{clocked:>9999}", "{clocked!r}", "{clocked.real}", "{0}"])
def test_a_sentence_with_more_than_plain_names_in_braces_is_refused(template):
    assert "a brace stands alone" in problems(says={"price.clocked": template})


def test_a_section_named_twice_is_refused():
    assert "sections: given twice: cover" in problems(sections=["cover", "story", "cover"])


def test_an_unknown_section_is_refused():
    assert "key sections[1]" in problems(sections=["covr"])


def test_every_problem_is_told_at_once():
    assert "3 things are wrong" in problems(paper="a5", photos_per_page=9, language="no language")


@pytest.mark.parametrize(("name", "paper", "left"), [("legal", 1008, 51.0), ("letter-punched", 792, 85.0)])
def test_the_shipped_variants_differ_in_paper_or_margin(name, paper, left):
    layout = layout_from(whole_layout(layout_keys(name), Places(), name), name)
    assert (layout.page[1], layout.body[0]) == (paper, pytest.approx(left, abs=0.1))


def test_the_room_on_a_page_is_what_the_margins_leave_upright_and_across():
    margins = {"left": 10, "right": 20, "top": 30, "bottom": 40}
    layout = a_layout("carta-a4", margins=margins)
    in_mm = [tuple(round(edge * 25.4 / 72) for edge in room) for room in (layout.body, layout.body_across)]
    assert in_mm == [(10, 40, 210 - 30, 297 - 70), (10, 40, 297 - 30, 210 - 70)]


def test_an_owners_packet_has_only_the_sections_meant_for_owners_in_the_layouts_order():
    layout = a_layout(sections=["money", "held", "cover", "missing", "declaration", "files", "dates"])
    assert layout.written_for("owner").sections == ("money", "cover")
    assert layout.written_for("shop").sections == layout.sections


def test_a_layout_without_any_section_for_owners_gives_them_the_usual_ones():
    assert a_layout(sections=["files"]).written_for("owner").sections[:2] == ("cover", "reasons")


def test_the_owner_alone_is_told_no_prices_and_the_shop_alone_its_doubts():
    readers = [a_layout().written_for(reader) for reader in ("maker", "owner", "shop")]
    assert [each.tells_prices for each in readers] == [True, False, True]
    assert [each.tells_doubts for each in readers] == [False, False, True]
