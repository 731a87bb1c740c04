import base64
import hashlib
import re

import pytest
from filed import FiledClaim
from pages import Page
from reported_claims import a_report, paid, told

from claimpack.core.payment.payment_dates import CHECK
from claimpack.reports.manager.page import report_page
from claimpack.reports.manager.section import ReportColumn, ReportTable, Section
from claimpack.reports.manager.sections import report_of

EVIL = '<script>alert("x")</script>&\'"</svg>'


def read(report=None):
    return Page(report_page(report or a_report()))


@pytest.fixture(scope="module")
def page():
    return read()


def test_every_element_closes_as_it_opened(page):
    assert page.wrong == []


def test_no_two_elements_have_one_name(page):
    names = [element.attributes["id"] for element in page.elements if "id" in element.attributes]
    assert len(names) == len(set(names))


def test_every_name_referred_to_is_there(page):
    names = {element.attributes.get("id") for element in page.elements}
    referred = {name for element in page.elements for name in element.attributes.get("aria-labelledby", "").split()}
    links = {element.attributes["href"].removeprefix("#") for element in page.all("a")}
    assert referred | links <= names


def test_the_page_says_its_language_and_letters(page):
    assert page.all("html")[0].attributes == {"lang": "en"}
    assert page.all("meta")[0].attributes == {"charset": "utf-8"}


def test_nothing_is_fetched_from_anywhere():
    text = report_page(a_report()).decode()
    assert not re.search(r"https?:|src=|@import|url\((?!#)", text)


def test_only_the_style_and_script_of_the_page_are_let_run(page):
    policy = page.all("meta")[1].attributes["content"]
    for tag in ("style", "script"):
        hashed = base64.b64encode(hashlib.sha256("".join(page.all(tag)[0].text).encode()).digest()).decode()
        assert f"{tag}-src 'sha256-{hashed}'" in policy
    assert policy.startswith("default-src 'none'")


def test_no_element_carries_a_style_or_a_script_of_its_own(page):
    names = {name for element in page.elements for name in element.attributes}
    assert not [name for name in names if name == "style" or name.startswith("on")]


def test_text_of_a_user_is_never_markup():
    owed = (FiledClaim(maker=EVIL), FiledClaim("2", maker=EVIL))
    claims = tuple(paid(f"{place}", maker=EVIL, model=EVIL, component=EVIL, unit=f"{place}") for place in range(11))
    evil = read(report_of(told(claims, owed, shop=EVIL)))
    assert len(evil.all("script")) == 1
    assert evil.wrong == []
    assert EVIL in evil.texts("p", class_="shop")


def test_findings_stand_first_and_link_to_their_sections(page):
    assert page.texts("a")[:3] == ["What to do first", "Outstanding", "Held parts"]


def test_every_picture_is_named_and_described(page):
    pictures = page.all("svg", role="img")
    assert len(pictures) == len(page.all("title")) - 1 == len(page.all("desc"))


def test_every_picture_is_there_wide_and_narrow(page):
    assert len(page.all("svg", class_="wide")) == len(page.all("svg", class_="narrow")) == len(page.all("figure"))


def test_every_section_with_a_picture_has_its_numbers_in_a_table(page):
    tables = page.all("table")
    assert len(tables) >= len(page.all("figure"))


def test_every_table_has_a_caption_and_headings_in_scope(page):
    assert len(page.all("caption")) == len(page.all("table"))
    assert all(element.attributes["scope"] in ("col", "row") for element in page.all("th"))


def test_the_day_is_printed(page):
    assert "As of 2026-03-01; all makers; 12 claims in the book." in page.texts("p")


def test_the_law_is_cited_with_the_advice_to_check_it(page):
    said = " ".join(page.texts("p"))
    assert "Tex. Bus. & Com. Code 57.253" in said
    assert CHECK in said


def test_a_book_without_claims_has_sentences_and_no_picture():
    empty = read(report_of(told()))
    assert empty.all("figure") == empty.all("table") == []
    assert len(empty.texts("p", class_="finding")) == 10


def test_the_same_report_gives_the_same_bytes():
    assert report_page(a_report()) == report_page(a_report())


def test_nothing_in_the_page_turns_the_direction_of_what_stands_around_it():
    evil = "Quarry\u202eRoad\u2066\u061c"
    claims = tuple(paid(f"{place}", maker=evil, model=evil, component=evil, unit=f"{place}") for place in range(11))
    text = report_page(report_of(told(claims, (FiledClaim(maker=evil),), shop=evil))).decode()
    assert not re.search("[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]", text)
    assert "Quarry[U+202E]Road" in text


def test_columns_that_a_phone_has_no_room_for_are_marked_and_never_the_first(page):
    headings = set(page.texts("th", class_="n wide", scope="col"))
    assert {"Age", "Days late"} <= headings
    rows = page.all("th", scope="row")
    assert not [row for row in rows if "wide" in row.attributes.get("class", "").split()]


def test_a_number_of_a_claim_in_a_sentence_is_kept_on_one_line():
    waiting = Section("waiting", "Waiting", "Claims 26-0022 and Q-27 wait; send back 26-0041/1.")
    page = read(a_report()._replace(sections=(waiting,)))
    kept = page.texts("p", class_="finding"), page.texts("span", class_="k")[-3:]
    assert kept == (["Claims 26-0022 and Q-27 wait; send back 26-0041/1."], ["26-0022", "Q-27", "26-0041/1"])


def a_table_page(columns, row):
    table = ReportTable("t", "", columns, [row])
    return read(a_report()._replace(sections=(Section("waiting", "Waiting", "x", tables=(table,)),)))


def test_numbers_of_claims_in_a_cell_of_several_words_are_kept_on_one_line_each():
    page = a_table_page((ReportColumn("Unit"), ReportColumn("Claims")), ("HC70", "26-0022 and 26-0041"))
    assert page.texts("span", class_="k")[-2:] == ["26-0022", "26-0041"]


@pytest.mark.parametrize(
    ("column", "cell", "kind"),
    [
        (ReportColumn("Maker"), "M" * 18, "d"),
        (ReportColumn("Maker"), "M" * 19, None),
        (ReportColumn("Cause", 1.5), "M" * 19, "w"),
        (ReportColumn("Days", right=True), 7, "n"),
    ],
    ids=["short", "longer", "in a wide column", "a number"],
)
def test_a_short_name_of_a_row_is_kept_on_one_line_and_a_number_stands_at_the_right(column, cell, kind):
    (head,) = a_table_page((column, ReportColumn("Claims")), (cell, 1)).all("th", scope="row")
    assert head.attributes.get("class") == kind
