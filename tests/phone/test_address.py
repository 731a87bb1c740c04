import socket

import pytest

from claimpack.errors import BadInput
from claimpack.phone.address import USUAL_PORT, host_of, listening, own_address


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


def test_a_port_that_somebody_named_is_the_one_or_it_is_refused():
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
        with pytest.raises(BadInput, match=f"port {port}"):
            listening("127.0.0.1", port)
    with listening("127.0.0.1", port) as named:
        assert named.getsockname()[1] == port


def test_an_address_of_another_machine_is_not_blamed_on_the_port():
    with pytest.raises(BadInput, match=r"^--address"):
        listening("192.0.2.77", None)


def that_goes_out_by(address):
    """The sockets of a machine whose way into the world begins at an address."""

    class Socket:
        def __init__(self, *_kind):
            self.getsockname = lambda: (address, 50123)

        def connect(self, _where):
            """Say nothing: there is a way."""

        def close(self):
            """Say nothing."""

    return Socket


def test_the_address_is_the_one_that_the_machine_would_go_out_by(monkeypatch):
    monkeypatch.setattr(socket, "socket", that_goes_out_by("192.0.2.20"))
    assert own_address() == "192.0.2.20"


def test_a_machine_on_no_network_has_no_address(monkeypatch):
    monkeypatch.setattr(socket, "socket", that_goes_out_by("0.0.0.0"))  # noqa: S104 - so a system says that it has none
    with pytest.raises(BadInput):
        own_address()
