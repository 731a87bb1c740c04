import socket

import pytest
from starlette.responses import PlainTextResponse

from claimpack.phone.address import USUAL_PORT, host_of, listening
from claimpack.phone.serving import Ending, serve
from claimpack.phone.session import Session, device_in


def test_it_ends_by_itself_when_its_time_is_over():
    waiting = listening("127.0.0.1", None)
    serve(PlainTextResponse("there"), waiting, Ending(), 0)
    assert waiting.fileno() == -1


def test_one_that_was_ended_before_it_began_ends_at_once():
    ending = Ending()
    ending()
    waiting = listening("127.0.0.1", None)
    serve(PlainTextResponse("there"), waiting, ending, 3600)
    assert waiting.fileno() == -1


def test_where_the_usual_port_is_taken_another_is_found():
    with listening("127.0.0.1", None), listening("127.0.0.1", None) as other:
        assert other.getsockname()[1] != USUAL_PORT


@pytest.mark.skipif(not socket.has_ipv6, reason="this machine knows no IPv6")
def test_an_ipv6_address_is_written_as_browsers_write_it():
    try:
        waiting = listening("::1", None)
    except Exception:  # noqa: BLE001  # a machine may know IPv6 and have no such address
        pytest.skip("this machine has no IPv6 address")
    with waiting:
        assert host_of(waiting).startswith("[::1]:")


def test_keys_are_given_to_as_many_phones_as_may_take_part():
    session = Session("192.0.2.7:8617", 30, 2, is_https=False)
    keys = [session.join() for _ in range(3)]
    assert ([bool(key) for key in keys], session.knows(keys[1]), session.knows("")) == (
        [True, True, False],
        True,
        False,
    )


BROWSERS = {"Mozilla/5.0 (iPhone; CPU": "iPhone", "(Linux; Android 15": "Android", "curl/8\x1b[2J": "a device"}


@pytest.mark.parametrize(("told", "device"), BROWSERS.items())
def test_a_device_is_told_in_one_of_our_own_words(told, device):
    assert device_in(told) == device
