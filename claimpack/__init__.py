"""Warranty claims for a repair shop: an explained verdict, a priced claim, a packet and a tag.

For scripts: `read_claim`, `judge`, `build`, `open_book`, and `ClaimpackError`, which all of them raise.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from claimpack.version import __version__ as __version__

if TYPE_CHECKING:
    from claimpack.errors import ClaimpackError as ClaimpackError
    from claimpack.scripts import build as build
    from claimpack.scripts import judge as judge
    from claimpack.scripts import open_book as open_book
    from claimpack.scripts import read_claim as read_claim

__all__ = ["ClaimpackError", "build", "judge", "open_book", "read_claim"]


def __getattr__(name: str) -> Any:
    """What scripts use, loaded when it is asked for: a command line that needs none of it starts sooner."""
    if name not in __all__:
        raise AttributeError(f"module 'claimpack' has no attribute {name!r}")
    from claimpack import errors, scripts

    return getattr(errors if name == "ClaimpackError" else scripts, name)
