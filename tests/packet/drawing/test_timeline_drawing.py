from __future__ import annotations

import io
from datetime import date
from functools import cache
from itertools import pairwise

import pypdfium2
import pytest
from builders import a_claim, a_plan, a_window
from drawn_packets import a_draft, a_layout, draw, layout_keys, page_texts, reader
from inked import ink_on, page_of, words_on

from claimpack.packet.drawing.timeline import on_the_line
from claimpack.packet.drawing.timeline_drawing import MOST_WINDOWS, timeline_picture
from claimpack.printing.palette import ACCENT, QUIET

COVER = {"sections": ["cover"]}


def cover(plan=None, layout="letter", **changes) -> str:
    return page_texts(draw(a_claim(**changes), plan or a_plan(), a_layout(layout, **COVER)))[0]


def test_events_carry_their_day_and_name():
    said = cover()
    assert all(
        label in said
        for label in (
            "2025-03-14 cover starts",
            "2026-02-02 failed",
            "2026-02-05 presented (judged)",
            "2026-02-24 repaired",
        )
    )


def test_a_bar_carries_the_last_day_of_its_window():
    assert "2030-03-14" in cover(a_plan(window=[a_window(), a_window(id="long", period="P5Y")]))


def test_a_window_says_how_it_stands_and_its_hour_limit():
    assert "engine cited, open · limit 300 h" in cover(a_plan(window=[a_window(hours="300")]))


def test_a_window_whose_start_is_not_known_says_so():
    assert "start not known" in cover(dates={"presented": "2026-02-05"})


def test_only_a_window_that_is_not_known_to_be_open_is_dashed():
    unknown, known = (
        reader(draw(a_claim(**changes), a_plan(), a_layout(**COVER))).pages[0].get_contents().get_data()
        for changes in ({"dates": {"presented": "2026-02-05"}}, {})
    )
    assert (b"[2 2] 0 d" in unknown, b"[2 2] 0 d" in known) == (True, False)


def test_a_claim_without_a_plan_still_shows_what_happened():
    assert "2026-02-05 presented" in cover(maker="nobody")


def test_the_picture_is_in_the_layouts_language():
    assert "2026-02-05 traída al taller (se juzga)" in cover(layout="carta-a4")


def bars(drawn, narrowest: float = 12) -> list[tuple[float, float]]:
    """Left and right edge of every filled bar on the cover, in points."""
    found = pypdfium2.PdfDocument(drawn.pdf)[0].get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH])
    boxes = [one.get_bounds() for one in found]
    return [
        (left, right) for left, bottom, right, top in boxes if 7.5 < top - bottom < 8.5 and right - left > narrowest
    ]


def test_bars_are_to_scale():
    windows = [a_window(id="one", period="P12M"), a_window(id="four", period="P48M")]
    widths = sorted(right - left for left, right in bars(draw(plan=a_plan(window=windows), layout=a_layout(**COVER))))
    assert 3.9 < widths[-1] / widths[0] < 4.1


def test_no_text_of_the_cover_leaves_the_page():
    drawn = draw(plan=a_plan(window=[a_window(name="W" * 200, period="P10Y")]), layout=a_layout(**COVER))
    page = pypdfium2.PdfDocument(io.BytesIO(drawn.pdf))[0]
    text = page.get_textpage()
    boxes = [text.get_charbox(n) for n in range(text.count_chars())]
    assert all(left >= 0 and right <= 612 for left, _, right, _ in boxes)


def test_a_title_too_long_for_a_line_goes_on_in_a_second():
    name = "California emission warranty for small off-road engines"
    assert name in cover(a_plan(window=[a_window(name=name)]))


LONG = "California emission warranty for small off-road engines"
MANY = [a_window(period="P10Y"), *(a_window(id=f"w{n}", name=LONG, period=f"P{n + 1}M") for n in range(9))]
PICTURES = {
    "one window": ([a_window(hours="300")], {}),
    "cited, open, closed, unknown": (
        [
            a_window(),
            a_window(id="longer", period="P24M"),
            a_window(id="brief", period="P3M"),
            a_window(id="limited", hours="300"),
        ],
        {"unit__hours": None},
    ),
    "for something else": ([a_window(uses=["rental"]), a_window(id="two", uses=["rental"], period="P3Y")], {}),
    "an end, or a start, not known": (
        [a_window(hours="300", whichever="last"), a_window(id="second", start=["registered"])],
        {},
    ),
    "no day but one": ([a_window(covers=["gearbox"])], {"dates": {"presented": "2026-02-05"}}),
    "more than fit": (MANY, {}),
}
EACH = [(name, paper) for name in PICTURES for paper in ("letter", "carta-a4")]


class Picture:
    """The time line alone on a page: its words, its lines and areas, and where a day stands by its axis."""

    def __init__(self, name: str, paper: str) -> None:
        windows, changes = PICTURES[name]
        self.draft = a_draft(a_claim(**changes), a_plan(window=windows), a_layout(paper))
        self.windows = on_the_line(self.draft.assessment)[:MOST_WINDOWS]
        page = page_of(timeline_picture(self.draft), self.draft.width)
        self.ink, self.words, (self.width, self.top) = ink_on(page), words_on(page), page.get_size()
        # the axis is drawn before all others, and the rule under each row is the thinnest
        self.axis = self.ink[0]
        self.rules = [one for one in self.ink if one.is_level and one.broad < 0.3]
        self.uprights = [one for one in self.ink if one.is_upright]
        self.bars = [one for one in self.ink if one.is_filled and abs(one.top - one.bottom - 8) < 0.1]
        dates = self.draft.assessment.claim.dates
        known = [dates.failed, dates.presented, dates.repaired, self.draft.assessment.starts]
        known += [day for window in self.windows for day in (window.starts, window.ends)]
        self.days = [day for day in known if day]

    def at(self, day: date) -> float:
        first, last = min(self.days), max(self.days)
        share = (day - first).days / max((last - first).days, 1)
        return self.axis.left + (self.axis.right - self.axis.left) * share

    def over_axis(self) -> list:
        """The labels of what happened, each with its day."""
        return [(one, date.fromisoformat(one.words[:10])) for one in self.words if one.bottom > self.axis.top]

    def rising(self) -> list:
        """The poles."""
        return [one for one in self.uprights if one.top > self.axis.top]

    def months(self) -> list:
        """The words under the axis, each with its day."""
        low, high = self.axis.top - 15, self.axis.top
        found = [one for one in self.words if low < one.bottom < high and one.right > self.axis.left]
        return [(one, date(*map(int, f"{one.words}-01".split("-")[:2]), 1)) for one in found]


@cache
def picture(name: str, paper: str) -> Picture:
    return Picture(name, paper)


@pytest.fixture(params=EACH, ids=", ".join)
def shown(request) -> Picture:
    return picture(*request.param)


def near(value: float, by: float = 0.5):
    return pytest.approx(value, abs=by)


def test_a_label_begins_or_ends_at_the_pole_that_stands_on_its_day(shown):
    for label, day in shown.over_axis():
        pole = min(shown.rising(), key=lambda one: abs(one.left - shown.at(day)))
        assert (pole.left, pole.bottom) == (near(shown.at(day), 0.1), near(shown.axis.top, 0.1))
        assert 0.5 < max(label.left - pole.left, pole.left - label.right) < 10
        assert label.bottom < pole.top < label.top + 3


def test_a_pole_stands_on_a_dot_on_the_axis(shown):
    days = sorted({shown.at(day) for _, day in shown.over_axis()})
    dots = [one.middle for one in shown.ink if one.is_filled and 4 < one.top - one.bottom < 5]
    assert dots == [(near(x), near(shown.axis.top, 0.1)) for x in days]


def test_from_the_months_down_to_the_foot_a_day_is_followed_by_a_line_that_is_whole_where_it_is_judged_on(shown):
    judged = shown.draft.assessment.judged_on
    lines = [one for one in shown.uprights if one.bottom == near(1, 0.1)]
    assert [(one.left, one.is_dashed) for one in lines] == [
        (near(shown.at(day)), day != judged) for day in sorted({day for _, day in shown.over_axis()})
    ]
    assert [shown.axis.top - one.top for one in lines] == [near(12, 0.1)] * len(lines)


def test_a_month_is_written_under_its_tick(shown):
    for label, day in shown.months():
        assert [
            one.top
            for one in shown.uprights
            if one.left == near(shown.at(day), 0.1) and one.bottom == near(shown.axis.top - 3, 0.1)
        ] == [near(shown.axis.top, 0.1)]
        assert (label.left + label.right) / 2 == near(shown.at(day), 0.8)
        assert shown.axis.top - 12 < label.bottom < label.top < shown.axis.top - 3


def test_a_bar_lies_between_the_days_it_tells(shown):
    open_ended = [window for window in shown.windows if window.applies is not False]
    assert [(bar.left, bar.right) for bar in shown.bars] == [
        (
            near(shown.at(window.starts) if window.starts else shown.axis.left),
            near(shown.at(window.ends) if window.ends else shown.axis.right),
        )
        for window in open_ended
    ]


def test_a_bar_has_an_edge_above_and_below_and_at_each_end_that_is_known(shown):
    windows = [window for window in shown.windows if window.applies is not False]
    for bar, window in zip(shown.bars, windows, strict=True):
        ends = [
            (x, one.bottom, one.top)
            for one in shown.uprights
            for x in (one.left,)
            if bar.bottom - 2 < one.bottom <= bar.bottom + 0.1 and one.top < bar.top + 2
        ]
        wanted = [(near(bar.left, 0.1), near(bar.bottom, 0.1), near(bar.top, 0.1))] if window.starts else []
        wanted += [(near(bar.right, 0.1), near(bar.bottom - 1.5, 0.1), near(bar.top + 1.5, 0.1))] if window.ends else []
        assert ends == wanted
        edges = [one for one in shown.ink if one.is_level and bar.bottom - 0.1 < one.bottom < bar.top + 0.1]
        assert {one.colour for one in edges} == {ACCENT if window.holds else QUIET}
        levels = [(one.left, one.right, one.bottom) for one in edges]
        assert levels == [(near(bar.left, 0.1), near(bar.right, 0.1), near(y, 0.1)) for y in (bar.bottom, bar.top)]


def rows(shown: Picture) -> list[tuple[float, float, list]]:
    """The lower and upper edge of every row and what is said at its left."""
    edges = [shown.axis.top - 15, *(rule.top for rule in shown.rules)]
    return [
        (low, high, [one for one in shown.words if low < one.bottom < one.top < high and one.right < shown.axis.left])
        for high, low in pairwise(edges)
    ]


def test_every_window_has_a_row_with_its_title_and_under_it_how_it_stands(shown):
    assert len(rows(shown)) == len(shown.windows)
    for (low, high, said), window in zip(rows(shown), shown.windows, strict=True):
        *title, standing = said
        assert " ".join(one.words for one in title) == window.title
        assert high - low == near(19.5 + 8.5 * (len(title) - 1), 0.1)
        assert [one.left for one in said] == [near(0, 1)] * len(said)
        assert [8.5] * (len(title) - 1) == [near(a.top - b.top, 0.6) for a, b in pairwise(title)]
        assert standing.top < title[-1].bottom
        assert (high - title[0].top, standing.bottom - low) == (near(3, 1.2), near(2.2, 1.5))


def test_the_last_row_ends_at_the_foot_and_every_rule_runs_across(shown):
    assert shown.rules[-1].bottom == near(0, 0.01)
    assert [(rule.left, rule.right) for rule in shown.rules] == [(near(0, 0.01), near(shown.width, 0.1))] * len(
        shown.rules
    )


def test_a_bar_lies_in_the_middle_of_its_row(shown):
    places = [(low, high) for low, high, _ in rows(shown)]
    for bar, (low, high) in zip(shown.bars, places, strict=False):
        assert bar.middle[1] == near((low + high) / 2, 0.3)


def last_days(shown: Picture) -> list:
    return [one for one in shown.words if one.bottom < shown.axis.bottom - 15 and one.left > shown.axis.left]


def test_behind_the_end_of_a_bar_stands_its_last_day(shown):
    said = [
        (window.ends.isoformat() if window.ends else shown.draft.words.end_unknown)
        if window.starts
        else shown.draft.words.start_unknown
        for window in shown.windows
    ]
    assert [one.words for one in last_days(shown)] == said
    ends = [shown.at(window.ends) if window.ends else shown.axis.right for window in shown.windows]
    assert [one.left - end for one, end in zip(last_days(shown), ends, strict=True)] == [near(4.2, 0.5)] * len(said)
    middles = [(low + high) / 2 for low, high, _ in rows(shown)]
    assert [(one.bottom + one.top) / 2 for one in last_days(shown)] == [near(middle, 1.5) for middle in middles]


def test_no_line_passes_behind_a_last_day(shown):
    grounds = [one for one in shown.ink if one.is_filled and 9.9 < one.top - one.bottom < 10.1]
    for day, ground, (low, high, _) in zip(last_days(shown), grounds, rows(shown), strict=True):
        assert ground.middle[1] == near((low + high) / 2, 0.3)
        assert ground.left < day.left < day.right < ground.right
        assert ground.bottom < day.bottom < day.top < ground.top
        assert day.left - ground.left == near(1.7, 0.6)


def test_only_the_window_cited_is_told_in_strong_letters_and_only_what_is_for_something_else_is_quiet(shown):
    cited = shown.draft.assessment.window
    for (_, _, said), day, window in zip(rows(shown), last_days(shown), shown.windows, strict=True):
        shades = {(one.face.endswith("Bold"), one.colour == QUIET) for one in (*said[:-1], day)}
        assert shades == {(cited is not None and window.id == cited.id, window.applies is False)}


def test_only_the_day_judged_on_is_told_in_strong_letters(shown):
    judged = shown.draft.assessment.judged_on
    assert all(one.face.endswith("Bold") == (day == judged) for one, day in shown.over_axis())


def test_what_is_for_something_else_is_a_line_in_the_middle_of_its_row():
    shown = picture("for something else", "letter")
    lines = [one for one in shown.ink if one.is_level and one.broad == near(0.8, 0.01)]
    middles = [(low + high) / 2 for low, high, _ in rows(shown)]
    assert [(one.left, one.right, one.top) for one in lines] == [
        (near(shown.at(window.starts)), near(shown.at(window.ends)), near(middle, 0.3))
        for window, middle in zip(shown.windows, middles, strict=True)
    ]


def test_nothing_of_the_picture_lies_outside_it(shown):
    assert all(one.left > -0.1 and one.right < shown.width + 0.1 for one in (*shown.words, *shown.ink[:1]))
    assert all(one.bottom > -0.1 and one.top < shown.top + 0.1 for one in (*shown.words, *shown.ink))


def test_a_window_of_a_day_among_years_is_a_bar_that_can_be_seen():
    plan = a_plan(window=[a_window(period="P10Y"), a_window(id="day", period="P1D")])
    _, (left, right) = bars(draw(plan=plan, layout=a_layout(**COVER)), narrowest=0.5)
    assert right - left == near(1, 0.05)


def test_words_however_long_end_before_the_axis_or_at_the_edge_of_the_page():
    words = layout_keys()["words"] | dict.fromkeys(("end_unknown", "state_cited", "state_open"), "mm " * 30)
    windows = [a_window(id=f"w{n}", name="mm " * 90, hours="300", whichever="last") for n in range(2)]
    draft = a_draft(plan=a_plan(window=windows), layout=a_layout(words=words))
    page = page_of(timeline_picture(draft), draft.width)
    axis, said = ink_on(page)[0], [one for one in words_on(page) if "mm" in one.words]
    titles, days = ([one for one in said if (one.left < 50) == is_title] for is_title in (True, False))
    assert (len(titles), len(days)) == (6, 2)
    assert [one for one in titles if one.right > axis.left - 9] == []
    assert [one for one in days if one.right > draft.width] == []
