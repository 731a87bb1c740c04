"""The desk: the shop, its book, vault and plans, and the day asked about, as commands about the book use them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from claimpack.commands.desk.changing import Changing, change_of
from claimpack.commands.desk.gather import (
    circumstances_in_book,
    the_author,
    the_book,
    the_shop,
    the_vault,
)
from claimpack.commands.desk.options import the_day
from claimpack.commands.desk.shops import Shops, not_ours

if TYPE_CHECKING:
    from claimpack.book.book import Book
    from claimpack.book.held import HeldWanted
    from claimpack.book.lookups import DayRange
    from claimpack.book.tables.entries import Author, Entry, Wanted
    from claimpack.book.tables.rows import KeptFile
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.core.claims.claim import Claim
    from claimpack.core.events.events import NewEvent
    from claimpack.core.events.standing import Standing
    from claimpack.core.judging.assessment import Assessment
    from claimpack.core.judging.claim_summary import ClaimSummary
    from claimpack.core.plans.plan import Plan
    from claimpack.core.steps.listed import ListedClaim, ListedPart
    from claimpack.evidence.vault import Vault


class Desk:
    """One command's place at the book. Plans are read before a change begins, so that the book is held briefly."""

    def __init__(self, world: World, today: str = "", plans: Sequence[Path] | None = None) -> None:
        from claimpack.template_files import Places

        self.world = world
        self.day = the_day(world, today)
        self.shop = the_shop(world)
        self.home = self.shop.home()
        self.places = Places(named=tuple(plans or ()), shop=self.home)
        self._plans_named = plans

    @property
    def shop_id(self) -> str:
        """What the book calls the shop; empty in a book of one."""
        return self.shop.settings.id

    @cached_property
    def shops(self) -> Shops[Desk]:
        """Whose the claims of the book are."""
        return Shops(self)

    def of_world(self, world: World) -> Desk:
        """The same desk as another world has it: the day and the plans that were named are the same."""
        return Desk(world, self.day.isoformat(), self._plans_named)

    @cached_property
    def book(self) -> Book:
        """The shop's book."""
        book = the_book(self.world, self.shop)
        if not book.all_shops:
            self._note_without_a_shop(book)
        return book

    def _note_without_a_shop(self, book: Book) -> None:
        """Say why lists may lack claims of a book of several shops: they are no shop's, will be, or all are others'."""
        from claimpack.commands.desk.say import Say
        from claimpack.core.values.numbers_said import how_many

        without = book.without_a_shop()
        if without:
            Say(self.world).note_once(
                f"{how_many(without, 'claim')} came in before the book held several shops, and nobody said whose. "
                f"Those that are {self.shop_id}'s: claimpack shop take"
            )
        others = book.shops_of_others()
        if others:
            Say(self.world).note_once(
                f"No claim of the book is {self.shop_id}'s; it holds those of {', '.join(others)}. "
                f"If the id in {self.home / 'shop.toml'} was another before, put that one back."
            )
        if not self.shop_id and book.holds_several():
            Say(self.world).note_once(
                "The book holds several shops, and this one has no id: what it takes in is no shop's. "
                f'Give it one: id = "…" in {self.home / "shop.toml"}'
            )

    @cached_property
    def vault(self) -> Vault:
        """Where photos and papers are kept."""
        return the_vault(self.world, self.shop)

    def keep_all(self, paths: Sequence[Path], seen: Sequence[str] = ()) -> list[tuple[str, int]]:
        """Keep copies of files in the vault, shown as they go; their hashes and sizes, in order.

        Args:
            paths: the files.
            seen: the hashes they had when they were looked at, where they were: a claim is to name what was kept.

        Raises:
            ClaimpackError: one cannot be read, or is another one now, or the vault does not take it; no claim names
                any of them then.
        """
        from claimpack.commands.desk.say import Say
        from claimpack.evidence.vault import changed_while_read

        with Say(self.world).progress("Keeping files", len(paths)) as advance:
            kept = self.vault.keep_all(paths, advance)
        for path, (sha256, _), before in zip(paths, kept, seen, strict=False):
            if sha256 != before:
                raise changed_while_read(path)
        return kept

    @cached_property
    def plans(self) -> list[Plan]:
        """Every plan within reach."""
        from claimpack.template_files import read_plans

        return read_plans(self.places)

    @property
    def author(self) -> Author:
        """Who changes the book, and the time it is."""
        return the_author(self.world)

    def plan_of(self, claim: Claim) -> Plan | None:
        """The plan a claim falls under, if one is found."""
        from claimpack.core.verdict.matching import match

        return match(claim, self.plans).plan

    def spellings(self, maker: str) -> tuple[str, ...]:
        """A maker as it is written, then as the plans write it."""
        from claimpack.core.plans.makers import spellings

        return spellings(maker, self.plans)

    def terms_with(self, maker: str) -> str:
        """The id of the payment terms that the shop's settings name for a maker, however it is written."""
        settings = self.shop.settings
        return settings.terms_for(*(self.spellings(maker) if settings.maker_terms else ()))

    def must_know_maker(self, said: str) -> None:
        """Refuse a maker that no claim and no plan knows: an empty list would say that nothing is there.

        Raises:
            BadInput: nobody knows it; the nearest one is suggested.
        """
        from claimpack.book.tables.entries import Wanted
        from claimpack.core.plans.makers import is_maker_of, names_shown
        from claimpack.core.values.words import did_you_mean
        from claimpack.errors import BadInput

        if not said or self.book.claims(Wanted(maker=said, limit=1)):
            return
        if not any(is_maker_of(plan, said) for plan in self.plans):
            raise BadInput(
                f"--maker: no claim and no plan is of {said!r}",
                "A list about nobody would say that nothing is there.",
                did_you_mean(said, dict.fromkeys((*names_shown(self.plans), *self.book.makers()))),
            )

    def assess(self, entry: Entry) -> Assessment:
        """A claim of the book, assessed; its parts are held as the book has it."""
        from claimpack.core.judging.assessment import assess

        return assess(entry.claim, self.plans, self.day, circumstances_in_book(entry, self.shop, self.day, self.plans))

    def claims(self, wanted: Wanted) -> list[ListedClaim]:
        """The claims wanted, the latest brought in first; drafts as they are judged today."""
        return [self._judged_today(row) for row in self.book.claims(wanted)]

    def drafts_due(self, until: dt.date) -> list[ListedClaim]:
        """The drafts that may have a day to file, or to repair, up to a day, as they are judged today."""
        from claimpack.book.tables.entries import Wanted

        if self.shops.told is not None:
            # the plans are each shop's own, so that no one mark tells which were judged otherwise
            return self.claims(Wanted(states=("draft",)))
        sooner = [row for row in self.book.drafts_due(until) if row.judged_by == self.mark_of_plans]
        return sooner + [self._judged_today(row) for row in self.book.drafts_judged_otherwise(self.mark_of_plans)]

    def _judged_today(self, row: ListedClaim) -> ListedClaim:
        """A draft judged anew where a plan file was changed since; what went to the maker stays as it was."""
        desk = self.shops.desk_of(self.shops.whose(row.number)) if row.state == "draft" else None
        # a draft of a shop whose folder is elsewhere stays as it was judged there last
        if desk is None or row.judged_by == desk.mark_of_plans:
            return row
        from claimpack.core.steps.listed import listed, stood

        entry = self.book.get(row.number)
        return listed(entry.claim, entry.revision, desk.summary_today(entry), stood(entry.standing))

    def summary_today(self, entry: Entry) -> ClaimSummary:
        """What lists show of a claim of the book: a draft is judged anew where a plan file was changed since."""
        known, standing = entry.summary, entry.standing
        desk = self.shops.desk_of(standing.shop) if standing.state == "draft" else None
        # a draft of a shop whose folder is elsewhere stays as it was judged there last
        if desk is None or known.judged_by == desk.mark_of_plans:
            return known
        return desk.summary_of(entry.claim, entry.files, standing)

    @cached_property
    def mark_of_plans(self) -> str:
        """The mark of the plan files within reach."""
        from claimpack.template_files import mark_of_plans

        return mark_of_plans(self.places)

    def summary_of(
        self, claim: Claim, files: Sequence[KeptFile] = (), standing: Standing | None = None
    ) -> ClaimSummary:
        """What lists show of a claim that comes into the book, or changes: everything judged anew."""
        from claimpack.book.tables.entries import Entry
        from claimpack.core.events.standing import Standing
        from claimpack.core.judging.assessment import assess
        from claimpack.core.judging.claim_summary import ClaimSummary, summary_of

        entry = Entry(claim, 1, standing or Standing(), ClaimSummary(), tuple(files))
        assessment = assess(claim, self.plans, self.day, circumstances_in_book(entry, self.shop, self.day))
        return summary_of(assessment, self.mark_of_plans)

    def _summary_of_changed(self, claim: Claim, files: Sequence[KeptFile], standing: Standing) -> ClaimSummary:
        """The same of a claim that is changed, judged by the plans and prices of its own shop.

        Raises:
            WrongState: it is another shop's, and nobody said which folder is that shop's.
        """
        theirs = self.shops.desk_of(standing.shop)
        if theirs is None:
            raise not_ours(self.shop, claim.number, standing.shop)
        return theirs.summary_of(claim, files, standing)

    @cached_property
    def plan_by_id(self) -> dict[str, Plan]:
        """Every plan within reach, by its id."""
        return {plan.id: plan for plan in self.plans}

    def held(self, wanted: HeldWanted) -> list[ListedPart]:
        """The held parts wanted, by shelf, claim and index, kept as their plans have it today."""
        return [self._kept(row) for row in self.book.held(wanted)]

    def held_due(self, until: dt.date, filed: Sequence[DayRange], received: Sequence[DayRange]) -> list[ListedPart]:
        """The held parts that may have a date to keep from today to a day, kept as their plans have it today.

        Args:
            until: the last day looked at.
            filed: spans of filing days from which a time to inspect ends in between.
            received: the same for days of receipt.
        """
        from claimpack.core.holding.hold import hold_of
        from claimpack.core.payment.due_dates import starts_of

        between = (self.day, until)
        # a superset: each shop's plans, and each part is dated by its own shop's below
        holds = ((plan.id, hold_of(plan)) for desk in self.shops.desks for plan in desk.plans)
        ending = [(plan, rule.of, starts_of(rule.length, between)) for plan, rule in holds if rule.of]
        return [self._kept(row) for row in self.book.held_due(between, ending, filed, received)]

    def _kept(self, row: ListedPart) -> ListedPart:
        from claimpack.core.holding.hold import Starts, hold_of

        desk = self.shops.desk_of(self.shops.whose(row.claim))
        plan = desk.plan_by_id.get(row.plan) if desk else None
        if plan is None:
            return row
        return row._replace(keep_until=hold_of(plan).until(Starts(row.filed, row.paid_on, row.repaired)))

    def must_take_changes(self, number: str) -> None:
        """Refuse a claim that takes no changes any more, before work is put into one.

        Raises:
            NotFound: there is no such claim.
            WrongState: it is settled or withdrawn, or another shop's.
        """
        from claimpack.core.events.events import NewEvent
        from claimpack.core.events.transitions import may_follow

        standing = self.book.get(number).standing
        self.shops.must_be_ours(number, standing.shop)
        may_follow(standing, NewEvent(what=change_of(standing), on=self.day), number)

    @contextmanager
    def changing(self, number: str, revision: int | None = None) -> Iterator[Changing]:
        """One claim being changed; leaving without `keep` changes nothing, and a correction once filed is told.

        Raises:
            NotFound: there is no such claim.
            AlreadyChanged: somebody changed it after that revision.
        """
        # Read now: a writer waits for no file while it holds the book.
        _ = self.plans
        with self.book.change(number, self.author, revision) as change:
            changing = Changing(change, self.day, self._summary_of_changed, self.shops.must_be_ours)
            yield changing
        self._tell_correction(changing)

    @contextmanager
    def changing_all(
        self, numbers: Sequence[str], coming: Sequence[tuple[Entry, tuple[NewEvent, ...]]] = ()
    ) -> Iterator[list[Changing]]:
        """Several claims, each named once, being changed in one transaction: all or none; corrections are told.

        Args:
            numbers: the claims.
            coming: new claims that are put into the book with the changes, each with what happened to it.

        Raises:
            NotFound: there is no such claim.
            BadInput: the number of a new claim already exists.
        """
        _ = self.plans
        with self.book.change_all(numbers, self.author, coming) as changes:
            changings = [
                Changing(change, self.day, self._summary_of_changed, self.shops.must_be_ours) for change in changes
            ]
            yield changings
        for changing in changings:
            self._tell_correction(changing)

    def _tell_correction(self, changing: Changing) -> None:
        """Say of a claim that was filed that the change is a new version."""
        from claimpack.commands.desk.say import Say

        if changing.is_correction:
            number, state = changing.claim.number, changing.entry.standing.state
            Say(self.world).note(
                f"{number} is {state}: this is a new version; the one that went out is kept as it was."
            )

    def add(self, claim: Claim, new_event: NewEvent, files: Sequence[KeptFile] = ()) -> Entry:
        """Put a new claim into the book.

        Raises:
            BadInput: its number already exists.
        """
        from claimpack.book.tables.entries import Entry
        from claimpack.core.events.standing import Standing

        entry = Entry(claim, 1, Standing(), self.summary_of(claim, files), tuple(files))
        self.shops.must_be_told_apart()
        self.book.add([entry], self.author, new_event)
        return self.book.get(claim.number)


def note_past(desk: Desk, say: Say) -> None:
    """Note that what happened after the day asked about counts all the same: history is not rolled back."""
    from claimpack.book.lookups import last_day

    if desk.day >= desk.world.today():
        return
    stands_at = last_day(desk.book.engine)
    if stands_at and stands_at > desk.day:
        say.note(
            f"The book stands at {stands_at}: days are counted as of {desk.day}, but what has happened since then "
            f"is not taken back."
        )
