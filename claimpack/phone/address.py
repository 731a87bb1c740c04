"""The address a page is found at: this machine's on the shop's network, and a port that is free."""

from __future__ import annotations

import errno
import socket
from contextlib import closing, suppress
from ipaddress import ip_address

from claimpack.errors import BadInput

USUAL_PORT = 8617
"""Taken where it is free, so that a firewall can be told of it."""

# Set aside for documentation (RFC 5737): nothing is sent, the system only says which of its own addresses it would use.
_ANYWHERE = ("192.0.2.1", 9)


def own_address() -> str:
    """This machine's address on its network.

    Raises:
        BadInput: it is on none.
    """
    with suppress(OSError), closing(socket.socket(socket.AF_INET, socket.SOCK_DGRAM)) as asked:
        # UDP: connecting sends nothing, and the system chooses the way it would go
        asked.connect(_ANYWHERE)
        found = str(asked.getsockname()[0])
        if not ip_address(found).is_unspecified:
            return found
    raise BadInput(
        "this machine is on no network, so no phone can reach it",
        "The phone must be on the same network, such as the shop's wireless one.",
        "Connect it; or name its address: --address ADDRESS",
    )


def listening(address: str, port: int | None) -> socket.socket:
    """A socket that waits at an address of this machine.

    Args:
        address: one address; not all of them, for the page is shown to one network.
        port: None for the usual one where it is free, else any that is.

    Raises:
        BadInput: it is no address of this machine, or the port is taken.
    """
    try:
        chosen = ip_address(address)
    except ValueError:
        raise BadInput(f"--address: {address!r} is no address", do="As in --address 192.168.1.20") from None
    if chosen.is_unspecified:
        raise BadInput(
            f"--address: {address} means every network this machine is on",
            "The page is shown on one network, the one the phone is on.",
            "Name this machine's address there, or leave --address out.",
        )
    family = socket.AF_INET6 if chosen.version == 6 else socket.AF_INET
    try:
        return _bound(family, str(chosen), USUAL_PORT if port is None else port)
    except OSError as error:
        # a port that somebody named is not replaced by another one
        if port is not None or error.errno != errno.EADDRINUSE:
            raise _cannot_listen(address, port, error) from error
        return _bound(family, str(chosen), 0)


def _bound(family: socket.AddressFamily, address: str, port: int) -> socket.socket:
    waiting = socket.socket(family)
    try:
        waiting.bind((address, port))
        waiting.listen(64)
    except OSError:
        waiting.close()
        raise
    return waiting


def _cannot_listen(address: str, port: int | None, error: OSError) -> BadInput:
    if error.errno == errno.EADDRNOTAVAIL:
        do = "Leave --address out, or correct it."
        return BadInput(f"--address: {address} is not an address of this machine", do=do)
    return BadInput(
        f"--port: nothing can wait at {address}, port {USUAL_PORT if port is None else port}",
        str(error.strerror),
        "Choose another port, or leave --port out.",
    )


def host_of(waiting: socket.socket) -> str:
    """The address and port of a socket as a browser writes them."""
    address, port = waiting.getsockname()[:2]
    return f"[{address}]:{port}" if ":" in address else f"{address}:{port}"
