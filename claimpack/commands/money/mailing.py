"""The mail with which a claim goes to its maker, written for a person to send."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from claimpack.commands.desk.gather import Case
    from claimpack.commands.desk.world import World

_SUBJECT = "Warranty claim {number}, {maker_name} {unit.model}, {unit.serial}"
_BODY = """Attached is our warranty claim {number}: {maker_name} {unit.model}.

Serial: {unit.serial}
Claimed: {amounts.claimed} {amounts.currency}
Our dealer number: {shop.dealer_number}

{shop.name}
{shop.address}
{shop.phone}
"""


def mail_of(world: World, case: Case, attached: Sequence[tuple[str, bytes]]) -> bytes:
    """The mail of a claim to its maker, by the shop's settings.

    Args:
        world: the world of the command, for the time.
        case: the claim as it goes out.
        attached: the PDFs, by the name they get.

    Raises:
        NotFound: no address of the maker is known.
        BadInput: the shop's own address is none, or the subject asks for a key that is not there.
    """
    from claimpack.commands.desk.gather import spellings_in
    from claimpack.commands.folder.form_filling import facts_of
    from claimpack.core.values.typed.mail import mail_address
    from claimpack.errors import BadInput, NotFound
    from claimpack.folder.shop_folder import SHOP_FILE
    from claimpack.forms.writings import text_of
    from claimpack.reports.mail import Mail, as_message

    settings, maker = case.shop.settings, case.assessment.maker_name
    # settings may name the maker by any of its words
    to, subject = settings.mail_for(*spellings_in(case))
    if not to:
        raise NotFound(
            f"--mail: the address of {maker} is not known",
            f"Where a maker takes claims stands under [maker_mail] in {SHOP_FILE}.",
            f'Write there: "{case.claim.maker}" = "claims@…"',
        )
    facts = facts_of(case)
    try:
        sender = mail_address(settings.email) if settings.email else ""
    except ValueError as error:
        raise BadInput(f"{SHOP_FILE}, key email: {error}", "A mail says who it is from.", "Correct it.") from None
    try:
        line = text_of(subject or _SUBJECT, facts)
    except (BadInput, ValueError) as error:
        raise BadInput(f"{SHOP_FILE}, key maker_subjects: {error}", do=getattr(error, "do", "")) from None
    mail = Mail(sender, settings.name, to, line, f"{text_of(_BODY, facts)}\n", attached)
    return as_message(mail, world.now())
