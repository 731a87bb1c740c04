"""A store of objects on this machine, asked over HTTP as any other."""

from __future__ import annotations

import atexit
import logging
from collections.abc import Callable, Mapping
from contextlib import AbstractContextManager, nullcontext
from functools import cache
from itertools import count

from claimpack.core.values.typed.stores import StoreAddress
from claimpack.evidence.object_store import ObjectStore, Progress

_BUCKETS = count()
_KEYS = {"AWS_ACCESS_KEY_ID": "shop", "AWS_SECRET_ACCESS_KEY": "a-secret", "AWS_REGION": "us-east-1"}
NOWHERE = {"AWS_ENDPOINT_URL": "http://127.0.0.1:1"}
"""An address where no store waits."""


class Server:
    """A server that can go away and come back with what it holds."""

    def __init__(self, port: int = 0) -> None:
        logging.getLogger("werkzeug").setLevel(logging.ERROR)
        self._port = port
        self.start()

    def start(self) -> None:
        from moto.server import ThreadedMotoServer  # takes a second to load: only when these tests run

        self._moto = ThreadedMotoServer(ip_address="127.0.0.1", port=self._port, verbose=False)
        self._moto.start()
        self._port = self._moto.get_host_and_port()[1]

    def stop(self) -> None:
        self._moto.stop()

    @property
    def environ(self) -> dict[str, str]:
        return {**_KEYS, "AWS_ENDPOINT_URL": f"http://127.0.0.1:{self._port}"}


@cache
def the_server() -> Server:
    """The one server of a run."""
    server = Server()
    atexit.register(server.stop)
    return server


def a_bucket() -> str:
    """A bucket with nothing in it, made as a user of it would make one."""
    from moto.s3.models import s3_backends

    name = f"quarry-road-{next(_BUCKETS)}"
    s3_backends["123456789012"]["aws"].create_bucket(name, "us-east-1")
    return name


def a_store(bucket: str, environ: Mapping[str, str] | None = None, progress: Progress | None = None) -> ObjectStore:
    """The objects of a bucket below a prefix."""
    return ObjectStore(StoreAddress(bucket, "shop"), environ or the_server().environ, progress or _quiet)


def _quiet(_label: str, _total: int) -> AbstractContextManager[Callable[[], None]]:
    return nullcontext(lambda: None)
