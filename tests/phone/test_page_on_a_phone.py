"""The page as a phone's browser shows it; skipped where no Chromium, or nothing to drive it, is installed."""

import pytest
from claim_folders import CLAIM, picture
from pages import CHROMIUM
from PIL import Image, ImageFilter
from receiving import receiving
from shop_builders import a_picture, kept_claim, with_tags
from shops_with_claims import a_shop_with, numbered

driver = pytest.importorskip("playwright.sync_api", reason="no playwright is installed, so the page was not driven")
pytestmark = pytest.mark.skipif(not CHROMIUM, reason="no Chromium is installed, so the page was not opened in one")

PHONE = {"viewport": {"width": 390, "height": 844}, "is_mobile": True, "has_touch": True}
SMALLEST_TARGET = 48
"""Pixels: for gloves; WCAG 2.2, 2.5.5 asks for 44."""


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    return a_shop_with(tmp_path_factory.mktemp("phone"), CLAIM, numbered("26-0002"))


@pytest.fixture(scope="module")
def phone(shop):
    """A phone's browser that has opened the page of a session, and what it complained of."""
    with receiving(shop) as session, driver.sync_playwright() as running:
        browser = running.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        page = browser.new_context(**PHONE).new_page()
        page.set_default_timeout(20_000)
        page.complaints = []
        page.on("pageerror", lambda error: page.complaints.append(str(error)))
        page.on("console", lambda told: page.complaints.append(told.text) if "Policy" in told.text else None)
        page.goto(session.url)
        page.wait_for_selector("#main button")
        yield page
        browser.close()


@pytest.fixture
def claim(phone):
    """The page of claim 26-0001."""
    phone.goto(phone.url)
    phone.get_by_role("button", name="26-0001").tap()
    phone.wait_for_selector("#shots")
    return phone


def scene(path, shade):
    """A sharp picture unlike those of other shades."""
    picture = Image.effect_noise((60, 45), 120 + shade).resize((1200, 900), Image.Resampling.NEAREST)
    picture.convert("RGB").save(path)
    return path


def photos(shop):
    return [(photo.file, photo.shot) for photo in kept_claim(shop, "26-0001").photos]


def take(page, label, *paths):
    page.get_by_label(label, exact=True).set_input_files(paths)


def test_nothing_is_complained_of(claim):
    assert claim.complaints == []


@pytest.mark.parametrize("width", [320, 390])
def test_nothing_scrolls_sideways_and_gloves_hit_every_target(claim, width):
    claim.set_viewport_size({"width": width, "height": 568})
    for summary in claim.locator("summary").all():
        summary.tap()
    heights = [each.bounding_box()["height"] for each in claim.locator("button, .take, input, summary").all()]
    assert claim.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert min(heights) >= SMALLEST_TARGET


def test_a_dark_picture_is_told_at_once_and_taken_again(claim, shop, tmp_path):
    (tmp_path / "dark.jpg").write_bytes(picture(900, 700, (9, 9, 9)))
    before = photos(shop)
    take(claim, "failed part", tmp_path / "dark.jpg")
    card = claim.locator(".shot.bad")
    assert "too dark" in card.inner_text()
    card.get_by_label("Take again").set_input_files(scene(tmp_path / "good.png", 1))
    claim.wait_for_selector(".shot.good")
    assert [each for each in photos(shop) if each not in before] == [("photos/failed-part.png", "failed part")]


def test_a_blurred_picture_is_told(claim, tmp_path):
    soft = Image.open(scene(tmp_path / "a.png", 2)).filter(ImageFilter.GaussianBlur(9))
    soft.save(tmp_path / "soft.jpg")
    take(claim, "whole unit", tmp_path / "soft.jpg")
    assert "blurred" in claim.locator(".shot.bad").inner_text()


def test_a_connection_that_is_cut_takes_nothing_twice_and_loses_nothing(claim, shop, tmp_path):
    cut = []

    def cutting(route):
        """Every first try of a step is lost: on the way there, or on the way back."""
        step = (route.request.method, route.request.url)
        if step in cut:
            route.continue_()
            return
        cut.append(step)
        if len(cut) % 2:
            route.fetch()
        route.abort("connectionreset")

    count = len(photos(shop))
    claim.route("**/files/*", cutting)
    claim.route("**/pictures", cutting)
    take(claim, "whole unit", scene(tmp_path / "large.png", 3))
    claim.wait_for_selector(".shot.good, .shot.bad")
    claim.unroute_all()
    assert (len(photos(shop)), len(cut) > 2) == (count + 1, True)


def test_eight_pictures_at_once_all_arrive(claim, shop, tmp_path):
    count = len(photos(shop))
    take(claim, "Several from the phone", *[scene(tmp_path / f"{shade}.png", shade) for shade in range(10, 18)])
    driver.expect(claim.locator(".shot.good, .shot.bad")).to_have_count(8)
    assert len(photos(shop)) == count + 8


def test_what_is_being_typed_is_not_lost_when_a_picture_lands(claim, tmp_path):
    claim.locator("summary", has_text="Finding").tap()
    claim.get_by_label("What was measured").fill("compression")
    take(claim, "Several from the phone", scene(tmp_path / "a.png", 30))
    claim.wait_for_selector(".shot.good, .shot.bad")
    assert claim.get_by_label("What was measured").input_value() == "compression"


def test_a_clock_is_started_from_the_phone(claim, shop):
    claim.locator("summary", has_text="Clock").tap()
    claim.get_by_label("Who works").fill("ben")
    claim.get_by_label("What is done").fill("short-block-replace")
    claim.get_by_role("button", name="Start a clock").tap()
    claim.get_by_role("button", name="Stop the clock").tap()
    claim.get_by_role("button", name="Stop the clock").wait_for(state="detached")
    assert kept_claim(shop, "26-0001").labour[-1].technician == "ben"


def test_the_tag_in_a_picture_opens_its_claim(phone, tmp_path):
    phone.goto(phone.url)
    with_tags(a_picture(1, (1600, 1400)), "26-0002/1", turned=9).save(tmp_path / "tag.png")
    take(phone, "Photograph a tag", tmp_path / "tag.png")
    phone.wait_for_selector("#shots")
    assert phone.locator("#number").inner_text() == "26-0002"
