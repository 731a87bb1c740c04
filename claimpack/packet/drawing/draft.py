"""A draft: what every section is drawn from, said in the words of the layout."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from typing import Any

from claimpack.core.claims.claim import Claim
from claimpack.core.judging.assessment import Assessment
from claimpack.core.judging.conditions.missing_items import absent_and_wrong
from claimpack.core.values.money import grouped, in_money, under_each_other
from claimpack.core.values.numbers_said import figures_said
from claimpack.core.values.wording.sentence import Sentence, period_in_words, serial_role
from claimpack.core.values.wording.words import WORDS
from claimpack.packet.drawing.evidence import PageEvidence, PaperSlot, PrintedPicture
from claimpack.packet.drawing.layout import Layout, Room, Section
from claimpack.packet.drawing.words import Words
from claimpack.printing.tables import TableColumn, ruled_table


@dataclass(frozen=True)
class Draft:
    """The assessment, the layout and the evidence.

    The slots, and the numbers of the pages that lie across, fill while the pages are drawn.
    """

    assessment: Assessment
    layout: Layout
    evidence: PageEvidence
    slots: list[PaperSlot] = field(default_factory=list)
    turned: set[int] = field(default_factory=set)

    @property
    def claim(self) -> Claim:
        """The claim."""
        return self.assessment.claim

    @property
    def words(self) -> Words:
        """The printed words of the layout."""
        return self.layout.words

    @property
    def width(self) -> float:
        """The width between the margins, in points."""
        return self.layout.body[2]

    @property
    def height(self) -> float:
        """The height between the margins, in points."""
        return self.layout.body[3]

    def body_of(self, page: int) -> Room:
        """The room inside the margins of a page that was begun, the first being 1."""
        return self.layout.body_across if page in self.turned else self.layout.body

    @property
    def maker(self) -> str:
        """The maker's name as people know it."""
        return self.assessment.maker_name

    @property
    def serial(self) -> str:
        """The one number the machine is told by."""
        return self.claim.unit.own_serial

    def title_of(self, section: Section) -> str:
        """The heading of a section; what is filed all the same lacks nothing any more, but encloses less."""
        absent, wrong = absent_and_wrong(self.assessment.missing)
        if section == "missing" and self.assessment.anyway and (absent or wrong):
            return self.words.not_enclosed if absent else self.words.not_as_asked
        if section == "money" and not self.layout.tells_prices:
            return self.words.money_for_owner
        return str(getattr(self.words, section))

    def said(self, sentence: Sentence) -> str:
        """A sentence of the program in the layout's language."""
        return sentence.said(self.layout.says, self.layout.spoken, self.layout.language).replace(
            " …", "\N{NO-BREAK SPACE}…"
        )

    def spoken(self, key: str) -> str:
        """A word of the program in the layout's language."""
        # a plan's own use or kind is no word of the program, and stands as it is written
        return self.layout.spoken.get(key) or WORDS.get(key, key)

    def role(self, role: str) -> str:
        """What a serial number is of, in the layout's language."""
        return serial_role(role, self.layout.spoken)

    def period(self, iso: object) -> str:
        """A period, in words."""
        return self.figures(period_in_words(str(iso), self.layout.spoken))

    def money(self, amount: Decimal) -> str:
        """An amount as the claim states it, with its currency where one is known."""
        # An approval of 600 is printed as 600: the maker reads the figure they wrote themselves.
        plan = self.assessment.plan
        currency = plan.currency if plan else self.claim.currency
        return f"{self.number(amount)} {currency}" if currency else self.number(amount)

    def figures(self, said: str) -> str:
        """Readings and amounts as they were written down, thousands apart as in the layout's language."""
        return figures_said(said, self.layout.language)

    def in_money(self, amount: Decimal) -> str:
        """An amount that the claim comes to, in whole coins of its currency."""
        amounts = self.assessment.amounts
        return in_money(amount, amounts.currency if amounts else "", self.layout.language)

    def number(self, number: Decimal) -> str:
        """A number as people of the layout's language write it."""
        return grouped(number, self.layout.language)

    def numbers(self, column: Sequence[Decimal | None]) -> list[str]:
        """The numbers of a column, their decimal signs under each other; a dash where one is not known."""
        return under_each_other(column, self.layout.language)

    def yes_or_no(self, known: bool | None) -> str:
        """Yes, no, or not noted."""
        return self.words.not_noted if known is None else self.words.yes if known else self.words.no

    def table(
        self,
        columns: Sequence[TableColumn],
        rows: Sequence[Sequence[Any]],
        total: Sequence[Any] | None = None,
        dense: bool = False,
    ) -> Any:
        """A table across the page, which says on the next page that it goes on there."""
        return ruled_table(columns, rows, self.width, total, dense, self.words.continued)

    def picture(self, file: str) -> PrintedPicture | None:
        """The picture of that file, where the packet has it."""
        return next((picture for picture in self.evidence.photos if picture.file == file), None)


def subject(assessment: Assessment, layout: Layout) -> str:
    """What the document's properties say it is about: the verdict, or the favour that is asked."""
    asked = assessment.goodwill
    if asked is None:
        return assessment.headline.said(layout.says, layout.spoken, layout.language)
    miss = asked.out_of_cover
    said = miss.said(layout.says, layout.spoken, layout.language) if miss else layout.words.state_closed
    return f"{layout.words.goodwill}. {asked.window}: {said}"


def day(on: date | None, otherwise: str = "\u2013") -> str:
    """A date as the packet prints it."""
    return on.isoformat() if on else otherwise
