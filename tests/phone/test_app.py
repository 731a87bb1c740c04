import hashlib
import io
import re
import struct
import zlib
from concurrent.futures import ThreadPoolExecutor

import pytest
from claim_folders import CLAIM
from PIL import Image, ImageDraw, ImageFont
from receiving import Phone, receiving
from shop_builders import a_picture, kept_claim, the_desk, with_tags
from shops_with_claims import a_shop_with, numbered

from claimpack.evidence.reading.letters import can_read_letters
from claimpack.phone.app import HEADERS
from claimpack.phone.uploads import MOST_BYTES, MOST_PIECE
from claimpack.printing.typeface import BOLD, typeface_file

OTHER = numbered("26-0002", **{"A. Customer": "B. Secret"})


def a_jpeg(shade=1, size=(900, 700), tags=()):
    stream = io.BytesIO()
    with_tags(a_picture(shade, size), *tags).save(stream, "JPEG", quality=90)
    return stream.getvalue()


@pytest.fixture(scope="module")
def session(tmp_path_factory):
    shop = a_shop_with(tmp_path_factory.mktemp("receiving"), CLAIM, OTHER)
    with receiving(shop) as session:
        session.shop = shop
        yield session


@pytest.fixture(scope="module")
def phone(session):
    phone = Phone(session)
    phone.ask("POST", "join")
    phone.tell("claim", code="26-0001")
    return phone


@pytest.fixture
def stranger(session, phone):
    """A device that knows the address, but came second."""
    return Phone(session)


def photos(session):
    return [photo.file for photo in kept_claim(session.shop, "26-0001").photos]


def test_another_name_for_the_machine_is_refused(phone):
    assert phone.ask("GET", "", host="elsewhere.example").status == 421


@pytest.mark.parametrize("path", ["/", "/wrong/", "/favicon.ico", "/wrong/../claim", "//"])
def test_without_the_secret_nothing_is_there(phone, path):
    answer = phone.ask("GET", path)
    assert (answer.status, answer.body) == (404, b"")


@pytest.mark.parametrize("origin", ["http://elsewhere.example", "null", None])
def test_what_another_page_sends_is_refused(phone, origin):
    assert phone.ask("POST", "claim", b'{"code": "26-0001"}', origin=origin).status == 403


@pytest.mark.parametrize(
    ("method", "path"),
    [("POST", "claim"), ("GET", f"files/{'a' * 64}"), ("POST", "claims/26-0001/finding"), ("POST", "end")],
)
def test_a_second_phone_gets_the_page_and_nothing_else(stranger, method, path):
    assert [stranger.ask("GET", "").status, stranger.ask(method, path, b"{}").status] == [200, 403]


def test_a_second_phone_is_told_what_to_do(stranger):
    answer = stranger.ask("POST", "join")
    assert (answer.status, "--devices 2" in answer.body["why"]) == (403, True)


def test_the_phone_that_came_first_may_come_again(phone):
    assert phone.ask("POST", "join").status == 200


def test_the_cookie_goes_with_the_session_and_to_it_alone(session, phone):
    cookie = phone.ask("POST", "join").headers["set-cookie"].lower()
    wanted = (f"path=/{session.token}/".lower(), "httponly", "samesite=strict", "max-age=1800")
    assert [word for word in wanted if word not in cookie] == []


@pytest.mark.parametrize("path", ["", "page.js", "words.js", "/", f"files/{'a' * 64}"])
def test_every_answer_carries_the_policy(phone, path):
    given = phone.ask("GET", path).headers
    assert {name.decode(): value.decode() for name, value in HEADERS}.items() <= given.items()


def test_no_answer_tells_what_serves_it(phone):
    assert "server" not in phone.ask("GET", "").headers


def test_the_page_brings_its_own_script_and_style_alone(phone):
    page = phone.ask("GET", "").body.decode()
    assert ("http:" in page, "//" in page, "<style" in page, "onclick" in page) == (False, False, False, False)


def test_a_phone_set_to_spanish_gets_the_page_in_spanish(phone):
    page, words = (phone.ask("GET", name, accept_language="es-MX,es;q=0.9").body for name in ("", "words.js"))
    assert ('<html lang="es">' in page.decode(), b'"Stop the clock": "Parar el reloj"' in words) == (True, True)


def test_claims_of_today_are_told_by_number_and_unit(phone):
    claims = phone.ask("POST", "join").body["claims"]
    assert {"number": "26-0002", "unit": "Halden CS-70 HC70-118-20417"} in claims


def test_nothing_of_an_owner_is_told(phone):
    told = str([phone.ask("POST", "join").body, phone.tell("claim", code="26-0001").body])
    assert [word for word in ("Customer", "Secret", "purchased", "amount") if word in told] == []


def test_a_claim_is_found_by_the_code_on_its_tag(phone):
    assert phone.tell("claim", code="26-0001/1").body["number"] == "26-0001"


def test_a_picture_with_the_tags_of_two_claims_is_not_said_to_show_none(phone):
    both = phone.send(a_jpeg(12, (1900, 1400), tags=("26-0001/1", "26-0002/1")))
    said = str(phone.tell("tag", sha256=both).body)
    assert ("26-0001" in said, "26-0002" in said, "no tag" in said) == (True, True, False)


def test_a_claim_that_was_not_opened_takes_nothing(phone):
    assert phone.tell("claims/26-0002/finding", what="gap", value="1").status == 400


def test_a_picture_lands_under_its_shot(session, phone):
    answer = phone.take("26-0001", a_jpeg(11), shot="failed part")
    assert (answer.status, photos(session)[-1]) == (200, "photos/failed-part.jpg")
    assert kept_claim(session.shop, "26-0001").photos[-1].shot == "failed part"


@pytest.mark.skipif(not can_read_letters(), reason="this machine reads no letters")
def test_a_plate_of_another_unit_is_told(phone):
    plate = Image.new("RGB", (1000, 600), "#c8ccd0")
    pen = ImageDraw.Draw(plate)
    for line, text in enumerate(("MODEL CS-70", "SERIAL No.", "HC70-222-33344")):
        pen.text((90, 120 + 130 * line), text, "black", ImageFont.truetype(typeface_file(BOLD), 80))
    stream = io.BytesIO()
    plate.save(stream, "JPEG")
    told = phone.take("26-0001", stream.getvalue(), shot="serial plate").body["doubts"]
    assert [(doubt["key"], "HC70-222-33344" in doubt["what"]) for doubt in told] == [("plate-differs", True)]


def test_the_same_picture_is_taken_once_and_answered_alike(session, phone):
    first = phone.take("26-0001", a_jpeg(12))
    count = len(photos(session))
    again = phone.take("26-0001", a_jpeg(12))
    assert (again.body["doubts"], len(photos(session))) == (first.body["doubts"], count)


def test_a_picture_taken_again_takes_the_place_of_the_first(session, phone):
    content = a_jpeg(13, (300, 200))
    dark = phone.take("26-0001", content, shot="whole unit").body
    before = photos(session)
    phone.take("26-0001", a_jpeg(14), shot="whole unit", instead=hashlib.sha256(content).hexdigest())
    assert ("small" in {doubt["key"] for doubt in dark["doubts"]}, len(photos(session))) == (True, len(before))
    assert before[-1] not in photos(session)


def test_a_picture_that_did_not_come_from_a_phone_cannot_be_replaced(session, phone):
    kept = the_desk(session.shop).book.get("26-0001").files[0]
    phone.take("26-0001", a_jpeg(15), instead=kept.sha256)
    assert kept.path in {file.path for file in the_desk(session.shop).book.get("26-0001").files}


def test_eight_pictures_at_once_are_all_taken(session, phone):
    before = len(photos(session))
    with ThreadPoolExecutor(8) as pool:
        answers = list(pool.map(lambda shade: phone.take("26-0001", a_jpeg(shade)), range(20, 28)))
    assert ([answer.status for answer in answers], len(photos(session))) == ([200] * 8, before + 8)


def test_a_piece_that_comes_twice_counts_once(phone):
    content = a_jpeg(30)
    path = f"files/{hashlib.sha256(content).hexdigest()}?at=0&size={len(content)}"
    told = [phone.ask("PUT", path, content[:500]).body["received"] for _ in range(2)]
    assert told == [500, 500]


def test_a_file_goes_on_where_it_was_cut_off(phone):
    content = a_jpeg(31)
    sha256 = hashlib.sha256(content).hexdigest()
    phone.ask("PUT", f"files/{sha256}?at=0&size={len(content)}", content[:700])
    assert phone.ask("GET", f"files/{sha256}").body["received"] == 700
    rest = phone.ask("PUT", f"files/{sha256}?at=700&size={len(content)}", content[700:])
    assert rest.body["received"] == len(content)


def test_a_file_that_is_not_what_was_announced_begins_anew(phone):
    sha256 = hashlib.sha256(b"something else").hexdigest()
    damaged = phone.ask("PUT", f"files/{sha256}?at=0&size=9", b"no such")
    damaged = phone.ask("PUT", f"files/{sha256}?at=7&size=9", b"ly")
    assert (damaged.status, phone.ask("GET", f"files/{sha256}").body["received"]) == (400, 0)


@pytest.mark.parametrize(
    "path",
    [
        f"files/{'a' * 64}?at=0&size={MOST_BYTES + 1}",
        f"files/{'a' * 64}?at=0&size=0",
        f"files/{'a' * 64}?at=-1&size=9",
        f"files/{'a' * 64}",
        "files/..%2f..%2fshop.toml?at=0&size=9",
        f"files/{'A' * 64}?at=0&size=9",
    ],
)
def test_what_is_no_piece_of_a_picture_is_refused(phone, path):
    assert phone.ask("PUT", path, b"x" * 9).status in (400, 404)


@pytest.mark.parametrize(("over", "status"), [(0, 200), (1, 400)])
def test_a_piece_has_a_mebibyte_at_most(phone, over, status):
    path = f"files/{'b' * 64}?at=0&size={MOST_PIECE + 9}"
    assert phone.ask("PUT", path, b"x" * (MOST_PIECE + over)).status == status


@pytest.mark.parametrize(
    "content",
    [b"MZ no picture", b"<svg onload=alert(1)>", a_jpeg(40)[:4000], b"\x89PNG\r\n\x1a\n" + b"\xff" * 60],
    ids=["a program", "a drawing with a script", "cut off", "damaged"],
)
def test_what_is_no_picture_is_refused_and_leaves_nothing(session, phone, content):
    before = photos(session)
    assert (phone.take("26-0001", content).status, photos(session)) == (400, before)


def test_a_bomb_is_refused(phone):
    head = struct.pack(">IIBBBBB", 60_000, 60_000, 1, 0, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(bytes(99))), (b"IEND", b""))
    told = [
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data)) for kind, data in chunks
    ]
    answer = phone.take("26-0001", b"\x89PNG\r\n\x1a\n" + b"".join(told))
    assert (answer.status, "megapixels" in answer.body["what"]) == (400, True)


NAMES = ["../../evil.jpg", "con.jpg", "a\0b.jpg", "x" * 300 + ".jpg", ".htaccess", "", "C:\\evil.JPG"]


@pytest.mark.parametrize("name", NAMES)
def test_a_name_leads_nowhere(session, phone, name):
    phone.take("26-0001", a_jpeg(50 + NAMES.index(name)), name=name)
    assert re.fullmatch(r"photos/photo(-\d+)?\.jpg", photos(session)[-1])


@pytest.mark.parametrize(
    "body", [b"", b"[]", b'{"code": 1}', b"\xff", b"[" * 10_000, b'{"code": "' + b"x" * 401 + b'"}']
)
def test_what_is_not_understood_is_refused(phone, body):
    assert phone.ask("POST", "claim", body).status == 400


def test_a_clock_is_started_and_stopped(session, phone):
    begun = phone.tell("claims/26-0001/start", operation="short-block-replace", technician="ben")
    assert [clock["technician"] for clock in begun.body["claim"]["clocks"]] == ["ben"]
    phone.tell("claims/26-0001/stop", technician="ben")
    assert kept_claim(session.shop, "26-0001").labour[-1].technician == "ben"


def test_a_finding_is_written_down_as_it_was_told(session, phone):
    phone.tell("claims/26-0001/finding", what="--json", value="-4", unit="psi", low="1", high="9")
    found = kept_claim(session.shop, "26-0001").findings[-1]
    assert (found.what, found.value, found.low) == ("--json", "-4", "1")


def test_a_note_is_written_down(session, phone):
    phone.tell("claims/26-0001/note", text="--again at the bench")
    assert the_desk(session.shop).book.history("26-0001")[-1].why == "--again at the bench"


@pytest.mark.parametrize(("letters", "status"), [(400, 200), (401, 400)])
def test_a_word_has_400_letters_at_most(phone, letters, status):
    assert phone.tell("claims/26-0001/note", text="x" * letters).status == status


def test_a_kept_part_is_put_on_a_shelf(session, phone):
    phone.tell("claims/26-0001/shelf", code="26-0001/1", shelf="C9")
    assert kept_claim(session.shop, "26-0001").held[0].shelf == "C9"


@pytest.mark.parametrize(
    ("action", "told"),
    [
        ("shelf", {"code": "26-0002/1", "shelf": "C9"}),
        ("stop", {"technician": "nobody"}),
        ("start", {"operation": ""}),
        ("finding", {"what": "gap", "value": "1", "low": "9", "high": "2"}),
        ("erase", {}),
    ],
)
def test_what_cannot_be_written_down_is_told(phone, action, told):
    answer = phone.tell(f"claims/26-0001/{action}", **told)
    assert (answer.status, bool(answer.body["what"])) == (400, True)
