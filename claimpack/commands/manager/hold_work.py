"""One step with held parts: the parts found by their codes, what happened recorded and told."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.commands.manager.held_parts import PartFound
    from claimpack.core.claims.claim import Claim
    from claimpack.core.events.events import NewEvent
    from claimpack.core.steps.settling import Step

_LEFT_BY = {"sent": "send", "scrapped": "scrap"}


class HoldStep(NamedTuple):
    """One step with held parts: the desk, the voice, the step taken, and how a part is found by its code."""

    desk: Desk
    say: Say
    step: Step
    find: Callable[[str], PartFound]

    @classmethod
    def begun(cls, world: World, on: str, because: str, today: str) -> HoldStep:
        """Gather what every step needs.

        Raises:
            BadInput: the day is none.
        """
        from claimpack.commands.desk.desk import Desk
        from claimpack.commands.desk.options import a_date
        from claimpack.commands.desk.say import Say
        from claimpack.commands.desk.terms_in_force import TermsInForce
        from claimpack.commands.manager.held_parts import at_hand
        from claimpack.core.facts.keys import record_from
        from claimpack.core.steps.settling import Step

        say, desk = Say(world), Desk(world, today)
        day = a_date(on, "--on") if on else desk.day
        step = record_from(Step, {"on": day, "why": because}, "hold", {"on": "--on", "why": "--because"})
        terms = TermsInForce(desk, say)
        return cls(desk, say, step, lambda said: at_hand(desk, terms, said))

    def keep(self, part: PartFound, claim: Claim, *new_events: NewEvent) -> None:
        """Record what happened, unless somebody changed the claim meanwhile.

        Raises:
            WrongState: it does not follow from where the part stands.
            BadInput: the day cannot be.
        """
        from claimpack.core.steps.settling import refuse_impossible_day

        refuse_impossible_day(part.entry.standing, new_events[-1], self.desk.day)
        with self.desk.changing(part.code.claim, part.entry.revision) as changing:
            changing.keep(claim, *new_events)

    def refuse_unless_it_follows(self, part: PartFound, new_event: NewEvent) -> None:
        """Refuse a step before anything is written.

        Raises:
            WrongState: it does not follow from where the part stands.
        """
        from claimpack.core.events.transitions import may_follow
        from claimpack.core.steps.settling import refuse_impossible_day

        may_follow(part.entry.standing, new_event, part.code.claim)
        refuse_impossible_day(part.entry.standing, new_event, self.desk.day)

    def keep_all(self, told: Sequence[tuple[PartFound, Sequence[NewEvent]]]) -> None:
        """Record what happened to several parts, the parts of one claim in one change.

        Raises:
            WrongState: it does not follow from where a part stands.
            BadInput: the day cannot be.
        """
        self.refuse_impossible_days(told)
        by_claim: dict[str, list[tuple[PartFound, Sequence[NewEvent]]]] = {}
        for part, new_events in told:
            by_claim.setdefault(part.code.claim, []).append((part, new_events))
        for some in by_claim.values():
            first = some[0][0]
            self.keep(first, first.entry.claim, *(each for _, new_events in some for each in new_events))

    def refuse_impossible_days(self, told: Sequence[tuple[PartFound, Sequence[NewEvent]]]) -> None:
        """Refuse a day that cannot be for one of several parts, before anything is asked or written.

        Raises:
            BadInput: with the two days.
        """
        from claimpack.core.steps.settling import refuse_impossible_day

        for part, new_events in told:
            refuse_impossible_day(part.entry.standing, new_events[-1], self.desk.day)

    def refuse_what_is_gone(self, parts: Sequence[PartFound]) -> None:
        """Refuse parts that are no longer in the shop.

        Raises:
            WrongState: one was sent or scrapped.
        """
        from claimpack.core.shelf.shelf_count import GONE
        from claimpack.errors import WrongState

        for part in parts:
            if part.keeping.state in GONE:
                raise WrongState(
                    f"{part.code} {part.held.part} was {part.keeping.state} already",
                    "A part leaves the shop once.",
                    f"If that was a mistake: claimpack hold {_LEFT_BY[part.keeping.state]} {part.code} --undo "
                    "--because TEXT",
                )

    def tell(self, part: PartFound, said: str, facts: Mapping[str, object], *, json: bool, next_step: str = "") -> int:
        """Say what was done; the exit code is done."""
        if json:
            self.say.document({"code": str(part.code), "part": part.held.part, **facts})
            return 0
        self.say.answer(f"{part.code} {part.held.part} {said}")
        if next_step:
            self.say.note(next_step)
        return 0

    def caution(self, parts: Sequence[PartFound], *, on_the_way: bool = False) -> None:
        """Show what whoever handles the parts, or sends them, must know, each caution once."""
        tags = [part.tag for part in parts]
        told = [tag.cautions_on_the_way if on_the_way else tag.cautions for tag in tags]
        for caution in dict.fromkeys(caution for some in told for caution in some):
            self.say.note(f"! {caution}")
