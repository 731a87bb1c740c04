"""A maker's own form filled for a claim, in memory; the caller writes it, or puts it in front of the packet."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from pathlib import Path

    from claimpack.commands.desk.gather import Case
    from claimpack.evidence.papers.papers import PreparedPaper
    from claimpack.forms.facts import Facts
    from claimpack.forms.mapping import Form

NO_FORM = "none"
"""What is said where the packet is to go without the maker's form."""


class FormMade(NamedTuple):
    """A form filled: its id, what it is called, the PDF, how many sheets it took, what is left empty, and notes."""

    id: str
    title: str
    pdf: bytes
    sheets: int
    empty: tuple[str, ...]
    notes: tuple[str, ...]


def form_by_setting(case: Case) -> str:
    """The id of the form that the maker takes by the shop's settings; empty where it takes none."""
    from claimpack.commands.desk.gather import spellings_in

    settings = case.shop.settings
    return settings.form_for(*spellings_in(case)) if settings.maker_forms else ""


def form_in_front(case: Case, wanted: str) -> tuple[FormMade | None, tuple[str, ...]]:
    """The filled form that goes in front of a packet, if one does, and why one that the shop goes by does not.

    Args:
        case: the claim, assessed.
        wanted: a form's id or file, or that none is wanted; empty for the shop's way.

    Raises:
        ClaimpackError: the form cannot be filled; or nothing is claimed, and it was asked for all the same.
    """
    from claimpack.forms.writings import claims_nothing

    named = "" if wanted == NO_FORM else wanted or form_by_setting(case)
    if not named:
        return None, ()
    # a form asked for by name is refused rather than left out
    if not wanted and claims_nothing(case.assessment):
        return None, (f"The maker's form {named} is left out: nothing is claimed.",)
    return fill_form(case, named), ()


def fill_form(case: Case, wanted: str) -> FormMade:
    """A form filled for a claim.

    Args:
        case: the claim, assessed.
        wanted: the form's id or file.

    Raises:
        ClaimpackError: there is no such form, it is another maker's, it cannot be filled, or nothing is claimed.
    """
    from claimpack.evidence.originals import read_original
    from claimpack.file_contents import read_bytes
    from claimpack.forms.filling import fill
    from claimpack.forms.mapping import form_from
    from claimpack.forms.writings import left_empty, refuse_unpriced, writings
    from claimpack.template_files import FORMS, template

    refuse_unpriced(case.assessment)
    found = template(FORMS, wanted, case.places)
    form = form_from(found.keys, str(found.path))
    _refuse_another_makers(case, form, found.path)
    sheets = writings(form, facts_of(case))
    filled = fill(read_bytes(read_original(found.path.parent, form.file)), form.file, sheets)
    return FormMade(form.id, form.name or form.id, filled.pdf, len(sheets), left_empty(sheets), filled.notes)


def _refuse_another_makers(case: Case, form: Form, path: Path) -> None:
    """Refuse a form of another maker than the claim's, unless the shop's settings give it to that maker.

    Raises:
        BadInput: with the two makers, and how to say that it is meant.
    """
    from claimpack.commands.desk.gather import spellings_in
    from claimpack.core.values.words import folded
    from claimpack.errors import BadInput

    makers = spellings_in(case)
    if folded(form.maker) in map(folded, makers) or form.id == form_by_setting(case):
        return
    raise BadInput(
        f"{path}: maker {form.maker!r} is another than {makers[0]!r}, the maker of claim {case.claim.number}",
        f"What stands on the form would go to {form.maker}.",
        f'Name the right form; or, if it is theirs too: "{makers[0]}" = "{form.id}" under [maker_forms] in shop.toml.',
    )


def facts_of(case: Case) -> Facts:
    """What a form, or the subject of a mail, is filled from."""
    from claimpack.commands.desk.gather import spellings_in
    from claimpack.forms.facts import Facts, ShopSays

    said = case.shop.settings
    shop = ShopSays(said.name, said.address, said.phone, said.email, said.dealer_number(*spellings_in(case)))
    return Facts(case.assessment, shop)


class Front(NamedTuple):
    """A form as it stands in front of a packet: its pages with nothing in them but what is printed, and its title."""

    paper: PreparedPaper
    title: str
    notes: tuple[str, ...]


def front_of(form: FormMade) -> Front:
    """A filled form made ready to stand in front of a packet."""
    from claimpack.evidence.papers.papers import printed_paper

    # No file of a claim can be called this, so that none is taken for it.
    paper = printed_paper(form.pdf, f"the maker's form {form.id}: *.pdf")
    return Front(paper, form.title, form.notes)
