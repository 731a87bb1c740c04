"""What the page asks of the shop: answered by whoever starts it, for the page itself knows no book."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any, NamedTuple, Protocol


class SentPicture(NamedTuple):
    """A picture as the phone sent it: its content, its name there, what it shows, which one it takes the place of."""

    path: Path
    sha256: str
    name: str
    shot: str = ""
    instead: str = ""


class Bench(Protocol):
    """The shop, as a phone sees it: nothing about owners, nothing that was not asked for.

    Every method may be called from several threads at once, and may raise a ClaimpackError, which is told on the phone;
    it answers in what JSON can carry.
    """

    def begun(self) -> dict[str, Any]:
        """What a phone sees first: the one claim it is for, or the claims of today to choose from."""

    def claim_called(self, code: str) -> dict[str, Any]:
        """The claim of that number or tag code."""

    def claim_on_tag(self, path: Path) -> dict[str, Any]:
        """The claim whose tag a picture shows."""

    def take(self, number: str, sent: SentPicture) -> dict[str, Any]:
        """Put a picture on a claim, and tell what is doubtful about it."""

    def do(self, number: str, action: str, told: Mapping[str, str]) -> dict[str, Any]:
        """Write down something about a claim: a clock started or stopped, a finding, a note, a shelf."""

    def joined(self, device: str) -> None:
        """A phone has opened the page."""

    def failed(self, fault: Exception) -> None:
        """Something went wrong that is no fault of the phone's."""
