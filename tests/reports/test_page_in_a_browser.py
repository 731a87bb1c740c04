"""The page as a real browser shows it; skipped where no Chromium is installed."""

import json
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


@pytest.fixture(scope="module")
def page(tmp_path_factory):
    path = tmp_path_factory.mktemp("browser") / "report.html"
    path.write_bytes(report_page(a_report(owed=OWED)))
    return path


DRIVE = """
const said = {};
const heading = (text) => [...document.querySelectorAll("#table-what-to-do-first thead th")]
  .find((th) => th.textContent === text).firstChild;
const claims = () => [...document.querySelectorAll("#table-what-to-do-first th[scope=row]")]
  .map((th) => th.textContent);
heading("Outstanding").click();
said.once = claims();
heading("Outstanding").click();
said.twice = claims();
heading("Claim").click();
said.ascending = [...document.querySelectorAll("th[aria-sort=ascending]")].map((th) => th.textContent);
heading("Maker").focus();
said.focused = document.activeElement.textContent;
document.querySelector("#table-held-parts thead button").click();
said.held = document.querySelector("#table-held-parts").textContent;
said.cut = [];
for (const font of ["serif", "monospace"]) {
  document.body.style.fontFamily = font;
  for (const text of document.querySelectorAll("svg[role=img] text")) {
    const box = text.getBBox(), whole = text.ownerSVGElement.viewBox.baseVal;
    if (box.width && (box.x < -1 || box.x + box.width > whole.width + 1)) said.cut.push(text.textContent);
  }
}
document.title = JSON.stringify(said);
"""


@pytest.fixture(scope="module")
def driven(page):
    """What a script found on the page as it clicked; the page's policy is taken off, or it would not be let run."""
    text = re.sub(r'<meta http-equiv="Content-Security-Policy"[^\n]*', "", page.read_text())
    path = page.with_name("driven.html")
    path.write_text(text.replace("</body>", f"<script>{DRIVE}</script></body>"))
    return json.loads(Page(browse(path, "--dump-dom").out).texts("title")[0])


@pytest.fixture(scope="module")
def opened(page):
    return browse(page, "--dump-dom")


def test_nothing_is_complained_of(opened):
    assert opened.complaints == []


def test_the_script_runs_under_the_policy_of_the_page(opened):
    assert "Outstanding" in Page(opened.out).texts("button", type="button")


def test_a_click_sorts_by_number_not_by_letters(driven):
    assert driven["once"] == ["26-0009", "26-0020", "26-0100"]


def test_a_second_click_turns_the_order(driven):
    assert driven["twice"] == ["26-0100", "26-0020", "26-0009"]


def test_the_column_sorted_by_says_so(driven):
    assert driven["ascending"] == ["Claim"]


def test_headings_take_the_focus_of_the_keyboard(driven):
    assert driven["focused"] == "Maker"


def test_the_totals_stay_below_when_sorted(driven):
    assert driven["held"].rindex("All") > driven["held"].index("released")


def test_no_label_of_a_picture_is_cut_whatever_the_typeface(driven):
    assert driven["cut"] == []


WIDTHS = {1280: "wide", 420: "narrow"}
FITS = """
onload = () => document.title = [...document.querySelectorAll("iframe")].map((frame) => {
  const f = frame.contentDocument;
  return [...f.querySelectorAll("figure svg")].filter((s) => s.clientWidth > 0)
    .every((s) => s.classList.contains(frame.title)) && f.documentElement.scrollWidth <= f.documentElement.clientWidth;
});
"""


def test_the_picture_that_fits_is_shown_and_tables_alone_scroll_sideways(page):
    path = page.with_name("frames.html")
    frames = (
        f'<iframe title="{shown}" width="{width}" height="900" src="{page.name}"></iframe>'
        for width, shown in WIDTHS.items()
    )
    path.write_text(f"<!DOCTYPE html><title>?</title>{''.join(frames)}<script>{FITS}</script>")
    assert Page(browse(path, "--allow-file-access-from-files", "--dump-dom").out).texts("title")[0] == "true,true"


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
