"""The page served: until its time is over, or somebody ends it."""

from __future__ import annotations

import asyncio
import socket
import threading
from pathlib import Path
from types import FrameType
from typing import Any

import uvicorn
from starlette.types import ASGIApp

_SECONDS_TO_FINISH = 5


class Ending:
    """Ends the session that it belongs to, from whatever thread; one that has not begun ends at once."""

    def __init__(self) -> None:
        self.is_wanted = threading.Event()

    def __call__(self) -> None:
        """End it."""
        self.is_wanted.set()


class _Server(uvicorn.Server):
    def __init__(self, config: uvicorn.Config, ending: Ending) -> None:
        super().__init__(config)
        self._ending = ending

    def handle_exit(self, _sig: int, _frame: FrameType | None) -> None:
        """Ctrl-C ends the session as everything else does: what is being filed is finished first."""
        # the second Ctrl-C is meant
        self.force_exit = self.should_exit
        self.should_exit = True

    async def on_tick(self, counter: int) -> bool:
        """Look once in a tenth of a second whether the session is to end."""
        return self._ending.is_wanted.is_set() or await super().on_tick(counter)


def serve(
    app: ASGIApp, waiting: socket.socket, ending: Ending, seconds: float, keys: tuple[Path, Path] | None = None
) -> None:
    """Serve an application at a socket until it is ended, or so many seconds are over.

    Args:
        app: the application.
        waiting: the socket; it is closed at the end.
        ending: ends it.
        seconds: how long it may take.
        keys: the files of the certificate and of its key, for https.
    """
    secured: dict[str, Any] = {"ssl_certfile": keys[0], "ssl_keyfile": keys[1]} if keys else {}
    config = uvicorn.Config(
        app,
        http="h11",
        # nothing on the page needs it, and what is not there cannot be attacked
        ws="none",
        lifespan="off",
        log_config=None,
        log_level="critical",
        server_header=False,
        # nobody stands between, and a header could claim another sender
        proxy_headers=False,
        limit_concurrency=60,
        timeout_keep_alive=15,
        timeout_graceful_shutdown=_SECONDS_TO_FINISH,
        **secured,
    )
    server = _Server(config, ending)

    async def until_it_ends() -> None:
        asyncio.get_running_loop().call_later(seconds, ending)
        await server.serve([waiting])

    try:
        asyncio.run(until_it_ends())
    finally:
        waiting.close()
