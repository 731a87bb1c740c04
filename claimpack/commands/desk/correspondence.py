"""Letters: who sends them, and where they go."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.core.payment.letters import Sender


def sender_in(desk: Desk, maker: str) -> Sender:
    """The shop as its letters to a maker name it."""
    from claimpack.core.payment.letters import Sender

    settings = desk.shop.settings
    return Sender(
        name=settings.name,
        address=settings.address,
        phone=settings.phone,
        email=settings.email,
        dealer_number=settings.dealer_number(*desk.spellings(maker)),
    )


def address_in(desk: Desk, maker: str, name: str) -> tuple[str, ...]:
    """The lines of a maker's address, its name first; none where the shop's settings have none."""
    from claimpack.core.payment.letters import address_of

    return address_of(name, desk.shop.settings.address_of(*desk.spellings(maker)))
