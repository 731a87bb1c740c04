"""Complaint, cause and correction, in the shop's own words."""

from __future__ import annotations

from typing import Any

from claimpack.packet.draft import Draft
from claimpack.printing.drawn import section, subsection
from claimpack.printing.lettering import text


def story_section(draft: Draft) -> list[Any]:
    """The three texts every maker asks for, as long as they are; then why a favour is asked, or why it was filed."""
    failure, words = draft.claim.failure, draft.words
    told = (
        (words.complaint, failure.complaint),
        (words.cause, failure.cause),
        (words.correction, failure.correction),
    )
    body: list[Any] = []
    for title, said in told:
        pieces = [text(part) for part in _paragraphs(said)] or [text(words.not_told, "small-italic")]
        body += subsection(title, draft.width, pieces)
    asked, anyway = draft.assessment.goodwill, draft.assessment.anyway
    for title, said in ((words.goodwill, asked.because if asked else ""), (words.filed_anyway, anyway)):
        if said and not (asked and title == words.filed_anyway and said == asked.because):
            body += subsection(title, draft.width, [text(part) for part in _paragraphs(said)])
    return section("story", words.story, draft.width, [*body])


def _paragraphs(said: str) -> list[str]:
    return [part.strip("\n") for part in said.split("\n\n") if part.strip()]
