"""Letters: who sends them, and where they go."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.core.payment.letters.letter import Letter, Sender
    from claimpack.printing.papers import Page


def sender_in(desk: Desk, maker: str) -> Sender:
    """The shop as its letters to a maker name it."""
    from claimpack.core.payment.letters.letter import Sender

    settings = desk.shop.settings
    return Sender(
        name=settings.name,
        address=settings.address,
        phone=settings.phone,
        email=settings.email,
        dealer_number=settings.dealer_number(*desk.spellings(maker)),
    )


def address_in(desk: Desk, maker: str, name: str) -> tuple[str, ...]:
    """The lines of a maker's address, its name first; none where the shop's settings have none, which is said."""
    from claimpack.commands.desk.say import Say
    from claimpack.core.payment.letters.letter import address_of

    lines = address_of(name, desk.shop.settings.address_of(*desk.spellings(maker)))
    if not lines:
        where = desk.home / "shop.toml"
        Say(desk.world).note_once(f'The letter has no address of {name}: {where}, [maker_addresses] {maker} = "…"')
    return lines


def evidence_behind(letter: Letter, evidence: bytes, page: Page) -> bytes:
    """The letter as a PDF with the pages of evidence behind it, where there are any."""
    from claimpack.packet.enclosed_pages import with_pages_of
    from claimpack.reports.letter import letter_pdf

    pdf = letter_pdf(letter, page)
    return with_pages_of(pdf, evidence) if evidence else pdf
