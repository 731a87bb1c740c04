"""Pages that go along with a letter: those of a packet behind those of the letter, as one document."""

from __future__ import annotations

import io

import pikepdf

from claimpack.printing.kept.finishing import finish, is_for_ever
from claimpack.printing.kept.structure import structure_of


def page_count(pdf: bytes) -> int:
    """How many pages a document has."""
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        return len(opened.pages)


def with_pages_of(letter: bytes, evidence: bytes) -> bytes:
    """The letter with the pages of the evidence behind it; the same bytes for the same input.

    What the evidence carries beside its pages stays behind: a letter says what is enclosed, and that is pages.
    """
    stream = io.BytesIO()
    with pikepdf.open(io.BytesIO(letter)) as whole, pikepdf.open(io.BytesIO(evidence)) as more:
        told, said = structure_of(whole), structure_of(more).later(len(whole.pages))
        told.holds += said.holds
        for_ever = is_for_ever(more)
        whole.pages.extend(more.pages)
        finish(whole, told, str(whole.Root.get("/Lang", "en")), for_ever=for_ever)
        whole.save(stream, deterministic_id=True)
    return stream.getvalue()
