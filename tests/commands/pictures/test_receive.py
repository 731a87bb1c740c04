import hashlib
import json
import re
import ssl

import pytest
from receiving import Phone, receiving
from running import claimpack
from shop_builders import a_shop

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.pictures.phone_bench import PhoneBench
from claimpack.phone.address import listening


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    return a_shop(tmp_path_factory.mktemp("receive"), "26-0001", "26-0002", plan="halden-2025")


def test_it_ends_when_enter_is_pressed_and_tells_what_came(shop):
    with receiving(shop, "26-0001", "--json") as session:
        Phone(session).ask("POST", "join")
    assert (session.code, json.loads(session.out.getvalue())["claims"]) == (0, [])


def test_it_ends_when_the_phone_says_so(shop):
    with receiving(shop) as session:
        phone = Phone(session)
        phone.ask("POST", "join")
        phone.tell("end")
        session.thread.join(30)
        assert (session.code, "No picture came." in session.err.getvalue()) == (0, True)


def test_plain_http_is_said_to_be_readable_by_others(shop):
    with receiving(shop) as session:
        pass
    assert "can read what is sent" in session.err.getvalue()


def test_a_page_for_one_claim_shows_no_other(shop):
    with receiving(shop, "26-0001") as session:
        phone = Phone(session)
        begun = phone.ask("POST", "join").body
        assert (begun["claim"]["number"], phone.tell("claim", code="26-0002").status) == ("26-0001", 400)


@pytest.mark.parametrize(("login", "name"), [("ann", "ann"), ("", "")])
def test_a_login_without_a_name_proposes_none_to_the_phone(shop, login, name):
    world = World(folder=shop, environ={"CLAIMPACK_WHO": login})
    assert PhoneBench(world, Say(world), "26-0001").begun()["claim"]["who"] == name


def test_as_many_phones_as_were_said_may_take_part(shop):
    with receiving(shop, "--devices", "2") as session:
        assert [Phone(session).ask("POST", "join").status for _ in range(3)] == [200, 200, 403]


def test_two_sessions_have_different_addresses(shop):
    with receiving(shop) as one, receiving(shop) as other:
        assert (one.host != other.host, one.token != other.token, len(one.token)) == (True, True, 22)


def test_the_fingerprint_told_is_that_of_the_certificate(shop):
    with receiving(shop, "--https") as session:
        address, _, port = session.host.partition(":")
        certificate = ssl.PEM_cert_to_DER_cert(ssl.get_server_certificate((address, int(port))))
    told = re.search("[0-9A-F:]{95}", session.err.getvalue())[0]
    assert told.replace(":", "").lower() == hashlib.sha256(certificate).hexdigest()


@pytest.mark.parametrize("address", ["0" + ".0" * 3, "somewhere", "192.0.2.77", "::"])
def test_it_waits_at_one_address_of_this_machine(shop, address):
    assert claimpack("photo", "receive", "--address", address, folder=shop).code == 2


def test_a_port_that_is_taken_is_told(shop):
    with listening("127.0.0.1", None) as taken:
        port = taken.getsockname()[1]
        ran = claimpack("photo", "receive", "--address", "127.0.0.1", "--port", port, folder=shop)
    assert (ran.code, f"127.0.0.1, port {port}" in ran.err) == (2, True)


def test_a_claim_that_is_not_there_is_told_before_the_page_is_made(shop):
    assert claimpack("photo", "receive", "26-0999", "--address", "127.0.0.1", folder=shop).code == 2
