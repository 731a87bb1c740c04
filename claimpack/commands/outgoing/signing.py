"""The shop's key unlocked: its file from the shop's settings, its passphrase from the environment or typed unseen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from claimpack.errors import BadInput

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.packet.sealing.signing import ShopKey
    from claimpack.shop import Shop

PASSPHRASE = "CLAIMPACK_PASSPHRASE"  # noqa: S105 - the name of a variable


def the_key(say: Say, shop: Shop, *, must: bool) -> ShopKey | None:
    """The key that packets are signed with; None where the settings name none.

    Args:
        say: for asking.
        shop: whose settings name the file.
        must: whether a signature was asked for, so that a missing setting is refused.

    Raises:
        BadInput: no file is named though one must be, or it cannot be unlocked.
        NotFound: the file is not there.
        NotInstalled: this machine lacks the library for signatures.
    """
    from claimpack.file_contents import read_bytes
    from claimpack.packet.sealing.signing import unlocked

    if not shop.settings.sign:
        if not must:
            return None
        raise BadInput(
            "--sign: the shop has no key to sign with",
            "A signature needs a PKCS#12 file with the shop's key and certificate.",
            'Name it in shop.toml: sign = "shop.p12"',
        )
    path = shop.home() / shop.settings.sign
    return unlocked(read_bytes(path), _passphrase(say, path.name), say.world.from_here(path))


def _passphrase(say: Say, file: str) -> str:
    given = say.world.environ.get(PASSPHRASE)
    if given is None and say.world.stdin.isatty():
        given = say.ask_unseen(f"Passphrase of {file}:")
    if given is None:
        raise BadInput(
            f"the passphrase of {file} was not given",
            "It is never taken from the command line, where others can read it.",
            f"Put it into {PASSPHRASE}, or run the command at a terminal.",
        )
    return given
