"""`photo receive` running in a shop, and a phone that talks to it without a browser."""

from __future__ import annotations

import hashlib
import http.client
import json
import re
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple

from running import NOW, Pipe, Terminal

from claimpack.__main__ import run
from claimpack.commands.desk.world import World


class _Told(Pipe):
    """A stream that lets another thread wait for an address to be told."""

    def __init__(self) -> None:
        super().__init__()
        self.is_told = threading.Event()

    def write(self, text: str) -> int:
        written = super().write(text)
        if "It ends after" in text or "claimpack:" in text:
            self.is_told.set()
        return written


class _Keyboard(Terminal):
    """A terminal at which somebody presses Enter once."""

    def __init__(self) -> None:
        super().__init__()
        self.enter = threading.Event()

    def readline(self, _size: int | None = -1) -> str:
        self.enter.wait(60)
        return "\n"


class Receiving:
    """A session: the address it told, and what the command said once it ended."""

    def __init__(self, shop: Path, *arguments: str) -> None:
        self.out, self.err, self.keyboard = Pipe(), _Told(), _Keyboard()
        who = {"CLAIMPACK_WHO": "ann"}
        self._world = World(self.keyboard, self.out, self.err, who, folder=shop, clock=NOW)
        self._arguments = ["photo", "receive", "--address", "127.0.0.1", *arguments]
        self.code = -1
        self.thread = threading.Thread(target=self._run)
        self.thread.start()
        self.err.is_told.wait(60)
        self.url = re.search(r"https?://\S+", self.err.getvalue())[0]  # type: ignore[index]
        _, _, self.host, self.token, _ = self.url.split("/")

    def _run(self) -> None:
        self.code = run(self._arguments, self._world)


class Answer(NamedTuple):
    """What came back: the status, the headers, and the body, read as JSON where it is."""

    status: int
    headers: dict[str, str]
    body: Any


class Phone:
    """A device with one cookie."""

    def __init__(self, session: Receiving) -> None:
        self.session, self.cookie = session, ""

    def ask(self, method: str, path: str, body: bytes = b"", **headers: str | None) -> Answer:
        """One request under the session's address; a path that begins with a slash is taken as it is."""
        given = {"Host": self.session.host, "Cookie": self.cookie}
        if method != "GET":
            given["Origin"] = f"http://{self.session.host}"
        given |= {name.title().replace("_", "-"): value for name, value in headers.items()}  # type: ignore[misc]
        connection = http.client.HTTPConnection(self.session.host, timeout=30)
        whole = path if path.startswith("/") else f"/{self.session.token}/{path}"
        connection.request(method, whole, body, {name: value for name, value in given.items() if value})
        answer = connection.getresponse()
        content = answer.read()
        connection.close()
        told = {name.lower(): value for name, value in answer.getheaders()}
        if "set-cookie" in told:
            self.cookie = told["set-cookie"].partition(";")[0]
        is_json = "json" in told.get("content-type", "")
        return Answer(answer.status, told, json.loads(content) if is_json else content)

    def tell(self, path: str, **told: object) -> Answer:
        """A request with words in it."""
        return self.ask("POST", path, json.dumps(told).encode())

    def send(self, content: bytes, piece: int = 200_000) -> str:
        """A file sent piece by piece; its hash."""
        sha256 = hashlib.sha256(content).hexdigest()
        at = 0
        while at < len(content):
            answer = self.ask("PUT", f"files/{sha256}?at={at}&size={len(content)}", content[at : at + piece])
            at = answer.body["received"]
        return sha256

    def take(self, number: str, content: bytes, **told: str) -> Answer:
        """A picture sent and put on a claim."""
        return self.tell(f"claims/{number}/pictures", sha256=self.send(content), **{"name": "image.jpg", **told})


@contextmanager
def receiving(shop: Path, *arguments: str) -> Iterator[Receiving]:
    """A session in a shop, ended from the terminal when it is left."""
    session = Receiving(shop, *arguments)
    try:
        yield session
    finally:
        session.keyboard.enter.set()
        session.thread.join(30)
