import socket

import pytest

from claimpack.phone.address import USUAL_PORT, host_of, listening


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
