"""HTML read back by the parser of the standard library, and by a browser where one is installed."""

from __future__ import annotations

import shutil
import subprocess
from html.parser import HTMLParser
from pathlib import Path
from typing import NamedTuple

CHROMIUM = next(
    (found for name in ("chromium", "chromium-browser", "google-chrome") if (found := shutil.which(name))), ""
)
SWITCHES = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--enable-logging=stderr",
)
VOID = {"meta", "link", "br", "img", "input", "hr"}


class Element(NamedTuple):
    """A start tag with its attributes and the text inside it."""

    tag: str
    attributes: dict[str, str]
    text: list[str]


class Page(HTMLParser):
    """A page taken apart: its elements in order, and what does not close as it opened."""

    def __init__(self, page: bytes | str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[Element] = []
        self.wrong: list[str] = []
        self._open: list[Element] = []
        self.feed(page.decode() if isinstance(page, bytes) else page)
        self.close()
        self.wrong += [f"<{element.tag}> is never closed" for element in self._open]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if len({name for name, _ in attrs}) < len(attrs):
            self.wrong.append(f"<{tag}> has an attribute twice")
        element = Element(tag, {name: value or "" for name, value in attrs}, [])
        self.elements.append(element)
        if tag not in VOID:
            self._open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append(Element(tag, {name: value or "" for name, value in attrs}, []))

    def handle_endtag(self, tag: str) -> None:
        if not self._open or self._open[-1].tag != tag:
            self.wrong.append(f"</{tag}> closes {self._open[-1].tag if self._open else 'nothing'}")
            return
        self._open.pop()

    def handle_data(self, data: str) -> None:
        for element in self._open:
            element.text.append(data)

    def all(self, tag: str, **attributes: str) -> list[Element]:
        """The elements of a tag with these attributes; class_ is class."""
        wanted = {name.rstrip("_"): value for name, value in attributes.items()}
        return [
            element
            for element in self.elements
            if element.tag == tag and all(element.attributes.get(name) == value for name, value in wanted.items())
        ]

    def texts(self, tag: str, **attributes: str) -> list[str]:
        """What those elements say."""
        return [" ".join("".join(element.text).split()) for element in self.all(tag, **attributes)]


class Seen(NamedTuple):
    """What a browser left behind: what it printed, and what it complained of."""

    out: str
    complaints: list[str]


def browse(page: Path, *switches: str) -> Seen:
    """Open a page from the disk in a browser without a window."""
    profile = page.parent / "profile"
    command = [CHROMIUM, *SWITCHES, f"--user-data-dir={profile}", *switches, page.as_uri()]
    ran = subprocess.run(command, capture_output=True, text=True, timeout=120, check=True)
    return Seen(ran.stdout, [line for line in ran.stderr.splitlines() if "CONSOLE" in line])
