"""The page as a real browser shows it; skipped where no Chromium is installed."""

import re
from decimal import Decimal

import pypdf
import pytest
from filed import FiledClaim
from pages import CHROMIUM, Page, browse
from PIL import Image
from reported_claims import a_report

from claimpack.reports.manager.page import report_page

pytestmark = pytest.mark.skipif(not CHROMIUM, reason="no Chromium is installed, so the page was not opened in one")

AMOUNTS = {"26-0009": "9.00", "26-0100": "100.00", "26-0020": "20.00"}
OWED = tuple(FiledClaim(number, outstanding=Decimal(amount)) for number, amount in AMOUNTS.items())
TABLE = "#table-what-to-do-first"


@pytest.fixture(scope="module")
def page(tmp_path_factory):
    path = tmp_path_factory.mktemp("browser") / "report.html"
    path.write_bytes(report_page(a_report(owed=OWED)))
    return path


def column(heading):
    return f"[...document.querySelectorAll('{TABLE} thead th')].find((th) => th.textContent === '{heading}')"


def after(page, script):
    """The page after a script of the test ran on it; the page's policy is taken off, or it would not be let run."""
    text = re.sub(r'<meta http-equiv="Content-Security-Policy"[^\n]*', "", page.read_text())
    driven = page.with_name("driven.html")
    driven.write_text(text.replace("</body>", f"<script>{script}</script></body>"))
    return Page(browse(driven, "--dump-dom").out)


def claims_of(page):
    rows = page.texts("th", scope="row")
    return [row for row in rows if row in AMOUNTS]


@pytest.fixture(scope="module")
def opened(page):
    return browse(page, "--dump-dom")


def test_nothing_is_complained_of(opened):
    assert opened.complaints == []


def test_the_script_runs_under_the_policy_of_the_page(opened):
    assert "Outstanding" in Page(opened.out).texts("button", type="button")


def test_a_click_sorts_by_number_not_by_letters(page):
    found = after(page, f"{column('Outstanding')}.firstChild.click()")
    assert claims_of(found) == ["26-0009", "26-0020", "26-0100"]


def test_a_second_click_turns_the_order(page):
    found = after(page, f"const b = {column('Outstanding')}.firstChild; b.click(); b.click()")
    assert claims_of(found) == ["26-0100", "26-0020", "26-0009"]


def test_the_column_sorted_by_says_so(page):
    found = after(page, f"{column('Claim')}.firstChild.click()")
    assert ["".join(element.text) for element in found.all("th", **{"aria-sort": "ascending"})] == ["Claim"]


def test_headings_take_the_focus_of_the_keyboard(page):
    focused = f"{column('Maker')}.firstChild.focus(); document.title = document.activeElement.textContent"
    assert after(page, focused).texts("title")[0] == "Maker"


def test_the_totals_stay_below_when_sorted(page):
    script = "document.querySelector('#table-held-parts thead button').click()"
    text = " ".join(after(page, script).texts("table", id="table-held-parts"))
    assert text.rindex("All") > text.index("released")


@pytest.mark.parametrize(("width", "shown"), [(1280, "wide"), (420, "narrow")])
def test_the_picture_that_fits_is_shown_and_tables_alone_scroll_sideways(page, width, shown):
    script = (
        "const f = document.querySelector('iframe').contentDocument;"
        "document.title = [...f.querySelectorAll('figure svg')].filter((s) => s.clientWidth > 0)"
        ".every((s) => s.classList.contains(document.body.dataset.shown))"
        " && f.documentElement.scrollWidth <= f.documentElement.clientWidth;"
    )
    frame = page.with_name("frame.html")
    frame.write_text(
        f'<!DOCTYPE html><title>?</title><body data-shown="{shown}"><iframe width="{width}" height="900" '
        f'src="{page.name}"></iframe><script>onload = () => {{{script}}}</script>'
    )
    assert Page(browse(frame, "--allow-file-access-from-files", "--dump-dom").out).texts("title")[0] == "true"


def test_the_page_prints_findings_first(page):
    printed = page.with_name("printed.pdf")
    browse(page, f"--print-to-pdf={printed}", "--no-pdf-header-footer")
    pages = pypdf.PdfReader(printed).pages
    assert len(pages) >= 1
    assert "In short" in " ".join(pages[0].extract_text().split())


def test_the_page_is_dark_on_light(page):
    picture = page.with_name("shown.png")
    browse(page, f"--screenshot={picture}", "--window-size=1280,900", "--hide-scrollbars")
    grey = Image.open(picture).convert("L").histogram()
    assert sum(grey[200:]) > 0.85 * sum(grey)
    assert sum(grey[:80]) > 0


FONTS = """
const out = [];
for (const font of ["serif", "monospace"]) {
  document.body.style.fontFamily = font;
  for (const text of document.querySelectorAll("svg[role=img] text")) {
    const box = text.getBBox(), whole = text.ownerSVGElement.viewBox.baseVal;
    if (box.width && (box.x < -1 || box.x + box.width > whole.width + 1)) out.push(`${font}: ${text.textContent}`);
  }
}
document.title = out.join("; ") || "none is cut";
"""


def test_no_label_of_a_picture_is_cut_whatever_the_typeface(page):
    assert after(page, FONTS).texts("title")[0] == "none is cut"
