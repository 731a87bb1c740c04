from __future__ import annotations

from itertools import pairwise

import pypdfium2
import pytest
from builders import a_claim, a_plan
from drawn_packets import PHOTO, a_layout, a_paper, a_shot, draw
from inked import place_of

MEASURED = {"findings": [{"what": "compression", "value": "40", "unit": "psi", "low": "90"}]}


@pytest.fixture(scope="module", params=["letter", "carta-a4"])
def listed(request):
    """What stands under the cover's body, each with its place from the lower left of that body, and its width."""
    layout = a_layout(request.param)
    claim = a_claim(photos=[PHOTO], papers=["a.pdf"], parts=[{"name": "Block", "unit_cost": "10.00"}], **MEASURED)
    plan = a_plan(filing={"within": "P30D"}, requires={"shots": ["whole unit"]})
    drawn = draw(claim, plan, layout, photos=[a_shot()], papers=[a_paper("a.pdf")], before=4)
    page = pypdfium2.PdfDocument(drawn.pdf)[0]
    left, bottom, width, _ = layout.body
    at = {}
    for title in (str(getattr(layout.words, one)) for one in layout.sections[1:] if one not in ("held", "files")):
        place = place_of(page, title)
        at[title] = (place[0] - left, place[1] - bottom, place[2] - left)
    return at, width, page.get_textpage().get_text_range()


def lines(listed) -> list[list[tuple[float, float, float]]]:
    """The titles in the lines they stand in."""
    found: list[list] = []
    for place in listed[0].values():
        if not found or place[0] < found[-1][-1][0]:
            found.append([])
        found[-1].append(place)
    return found


def test_titles_stand_in_lines_that_begin_at_the_margin_and_end_before_the_other(listed):
    assert len(lines(listed)) == 2
    assert [line[0][0] for line in lines(listed)] == [pytest.approx(0, abs=1)] * 2
    assert [line for line in lines(listed) if line[-1][2] > listed[1]] == []


def test_the_first_line_stands_right_under_the_body_and_the_second_under_it(listed):
    first, second = lines(listed)
    assert [place[1] for place in first] == [pytest.approx(-8, abs=2)] * len(first)
    assert [place[1] for place in second] == [pytest.approx(-16, abs=2)] * len(second)


def test_between_titles_is_room_for_a_page_of_three_figures(listed):
    gaps = [after[0] - before[2] for line in lines(listed) for before, after in pairwise(line)]
    assert gaps == [pytest.approx(22, abs=2)] * len(gaps)


def test_a_line_is_filled_as_far_as_the_next_title_has_room(listed):
    (first, second), width = lines(listed), listed[1]
    assert first[-1][2] + 22 + (second[0][2] - second[0][0]) + 13 > width


def test_pages_are_counted_with_those_before_the_packet(listed):
    first = next(iter(listed[0]))
    assert f"{first} 6" in " ".join(listed[2].split())


@pytest.mark.parametrize(("shots", "listed"), [([], False), (["whole unit"], True)])
def test_a_section_that_says_only_that_nothing_is_missing_is_not_listed(shots, listed):
    plan = a_plan(requires={"shots": shots, "held_part": False})
    page = pypdfium2.PdfDocument(draw(plan=plan, layout=a_layout(sections=["cover", "missing"])).pdf)[0]
    assert ("What is missing 2" in page.get_textpage().get_text_range()) == listed


@pytest.mark.parametrize(("sections", "listed"), [(["cover", "story"], True), (["story", "cover"], False)])
def test_a_cover_lists_the_sections_where_it_stands_in_front(sections, listed):
    drawn = draw(layout=a_layout(sections=sections))
    said = " ".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(drawn.pdf))
    assert ("Complaint, cause, correction 2" in said) == listed
    assert drawn.page_count == 2
