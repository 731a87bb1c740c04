"""The shop as a technician's phone sees it: claims opened, pictures taken in, work written down."""

from __future__ import annotations

import threading
from collections.abc import Mapping
from functools import cached_property
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any

from claimpack.commands.pictures.phone_commands import run, written_by
from claimpack.errors import BadInput, ClaimpackError, WrongState

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.commands.pictures.photo_filing import Incoming, TakenIn
    from claimpack.core.claims.claim import Claim
    from claimpack.core.clauses.picture_doubts import PictureDoubt
    from claimpack.core.plans.plan import Plan
    from claimpack.phone.bench import SentPicture

_LATEST_EVENTS = 400
_MOST_CHOICES = 30


class PhoneBench:
    """What a phone may do; with a claim named it sees no other."""

    def __init__(self, world: World, say: Say, only: str = "") -> None:
        from claimpack.commands.desk.desk import Desk

        self._world, self._say, self._only = world, say, only
        self._desk = Desk(world)
        self._opened: set[str] = set()
        self._lock = threading.RLock()
        self.added: dict[str, list[str]] = {}
        """The files put on each claim in this session, in order."""
        self._put: dict[tuple[str, str], str] = {}
        if only:
            self._open(only)

    @cached_property
    def language(self) -> str:
        """The language of the shop's packets; empty where it chose no layout for them."""
        from claimpack.template_files import PACKET, template, whole_layout

        layout, places = self._desk.shop.settings.layout, self._desk.places
        if not layout:
            return ""
        found = template(PACKET, layout, places)
        return str(whole_layout(found.keys, places, str(found.path)).get("language", ""))

    def begun(self) -> dict[str, Any]:
        """The one claim, or the claims that somebody works on today."""
        with self._lock:
            if self._only:
                return {"claim": self._shown(self._only)}
            return {"claims": [self._in_short(entry) for entry in self._of_today()]}

    def claim_called(self, code: str) -> dict[str, Any]:
        """The claim of that number, or whose tag has that code."""
        from claimpack.core.claims.part_codes import part_code

        with self._lock:
            return self._open(part_code(code).claim)

    def claim_on_tag(self, path: Path) -> dict[str, Any]:
        """The claim whose tag is in a picture.

        Raises:
            BadInput: no tag of ours is in it, or those of several claims.
        """
        from claimpack.core.steps.photo_sorting import claim_in
        from claimpack.evidence.reading.tag_reader import search_all

        found = search_all([("the picture", path)])
        codes = [code for picture in found.pictures for code in picture.codes]
        claims = sorted({claim for code in codes if (claim := claim_in(code))})
        if len(claims) != 1:
            seen = f"the tags of {' and '.join(claims)}" if claims else "no tag of the shop's that could be read"
            raise BadInput(f"the picture shows {seen}", "Move closer to one tag and hold still.")
        return self.claim_called(claims[0])

    def take(self, number: str, sent: SentPicture) -> dict[str, Any]:
        """Put a picture on a claim; one it takes the place of goes off it, if it came from a phone just now."""
        from claimpack.commands.pictures.photo_filing import Incoming, doubted, take_in
        from claimpack.evidence.pictures.likeness import look_at

        self._must_be_open(number)
        # A session may go on past midnight.
        self._desk.day = self._world.today()
        called = _called(sent)
        incoming = Incoming(called, sent.path, look_at(sent.path, called), sent.shot, called=called)
        with self._lock:
            claim = self._desk.book.get(number).claim
        doubts = doubted(self._desk, claim, [incoming])[called]
        doubts += self._read(claim, incoming) if not doubts else []
        with self._lock:
            doubts += self._seen_elsewhere(number, sent.sha256)
            self._desk.vault.keep(sent.path)
            with self._desk.changing(number) as changing:
                taken = take_in(changing, [incoming], f"photo from a phone: {called}")
            before = self._put.pop((number, sent.instead), "")
            doubts += [doubt for doubt in _alike(taken, before) if not doubts]
            self._remember(number, taken, doubts)
            if before:
                run(self._world, ("photo", "remove", "--json", "--", number, before))
            told = [doubt._asdict() for doubt in doubts]
            return {"doubts": told, "there": bool(taken.there), "claim": self._shown(number)}

    def do(self, number: str, action: str, told: Mapping[str, str]) -> dict[str, Any]:
        """Write down something about a claim, by the command that writes it down.

        Raises:
            BadInput: there is no such action.
        """
        self._must_be_open(number)
        with self._lock:
            answer = run(self._world, written_by(action, number, told, self._desk.book))
            notes = [*answer.get("doubts", []), *answer.get("first", [])]
            self._say.note(f"{number}: {action} from the phone")
            return {"claim": self._shown(number), "notes": notes}

    def joined(self, device: str) -> None:
        """Tell that a phone has opened the page."""
        self._say.note(f"A phone has opened the page ({device}).")

    def failed(self, fault: Exception) -> None:
        """Tell a fault of the program."""
        self._say.note(f"claimpack: a fault of the program: {type(fault).__name__}: {fault}")

    def _open(self, number: str) -> dict[str, Any]:
        """The claim of that number, which may be worked on from here on.

        Raises:
            NotFound: there is none.
            WrongState: it takes no changes any more.
            BadInput: the page is for another claim.
        """
        if self._only and number != self._only:
            raise BadInput(f"this page is for claim {self._only} alone")
        number = self._desk.book.get(number).claim.number
        self._desk.must_take_changes(number)
        self._opened.add(number)
        return self._shown(number)

    def _must_be_open(self, number: str) -> None:
        if number not in self._opened:
            raise WrongState(f"claim {number} was not opened on this page")

    def _of_today(self) -> list[Entry]:
        """The claims that came in, or were worked on, today and still take pictures; the latest first."""
        latest = reversed(self._desk.book.history(latest=_LATEST_EVENTS))
        today = self._desk.day
        numbers = dict.fromkeys(event.claim for event in latest if event.at.date() == today)
        found = {entry.claim.number: entry for entry in self._desk.book.entries(list(numbers))}
        there = [found[number] for number in numbers if number in found]
        return [entry for entry in there if entry.standing.state == "draft"][:_MOST_CHOICES]

    def _in_short(self, entry: Entry) -> dict[str, str]:
        unit = entry.claim.unit
        words = (self._maker(entry), unit.model, unit.serial("unit") or unit.serial("engine"))
        return {"number": entry.claim.number, "unit": " ".join(word for word in words if word)}

    def _maker(self, entry: Entry) -> str:
        return self._desk.spellings(entry.claim.maker)[-1]

    def _shown(self, number: str) -> dict[str, Any]:
        """A claim as the page shows it: the unit and the work on it, and nothing of its owner."""
        from claimpack.commands.desk.one_claim import wanted_shots
        from claimpack.core.values.clock import shop_time

        entry = self._desk.book.get(number)
        claim, plan = entry.claim, self._desk.plan_of(entry.claim)
        wanted = wanted_shots(claim, plan)
        component = claim.failure.component
        unit = self._in_short(entry)["unit"]
        return {
            "number": claim.number,
            "unit": f"{unit}: {component}" if component else unit,
            "who": self._world.own_name(),
            "shots": [{"shot": shot, "there": shot not in wanted} for shot in _asked(claim, plan)],
            "clocks": [
                {
                    "technician": clock.technician,
                    "operation": clock.operation,
                    "since": shop_time(clock.started, self._world.shown),
                }
                for clock in self._desk.book.clocks()
                if clock.claim == number
            ],
            "operations": [{"code": each.code, "name": each.name} for each in plan.operation] if plan else [],
            "findings": _findings(plan),
            "held": [
                {"code": f"{number}/{nth}", "part": part.part, "shelf": part.shelf}
                for nth, part in enumerate(claim.held, start=1)
            ],
        }

    def _read(self, claim: Claim, incoming: Incoming) -> list[PictureDoubt]:
        """What is doubtful about a plate by what stands on it; nothing where this machine reads no letters."""
        from claimpack.core.reading.compared import proposed
        from claimpack.core.reading.plate_doubts import plate_doubts, shows_a_number
        from claimpack.core.verdict.matching import may_fall_under
        from claimpack.evidence.reading.reading import read_picture

        if not shows_a_number(incoming.shot):
            return []
        desk = self._desk
        try:
            lines = read_picture(incoming.path, incoming.file, letters=True)
        except ClaimpackError:
            # A picture that takes too long to be read, or that nothing here can read, is a good one all the same.
            return []
        fitting = may_fall_under(claim, desk.plans)
        found = proposed(lines, claim, fitting, incoming.shot, desk.day, desk.shop.settings.dates)
        return plate_doubts(found, incoming.shot)

    def _seen_elsewhere(self, number: str, sha256: str) -> list[PictureDoubt]:
        from claimpack.core.clauses.picture_doubts import of_another_claim

        others = self._desk.book.with_content({sha256}).get(sha256, [])
        return of_another_claim([claim for claim in others if claim != number])

    def _remember(self, number: str, taken: TakenIn, doubts: list[PictureDoubt]) -> None:
        for _, photo, each in taken.added:
            self.added.setdefault(number, []).append(photo.file)
            self._put[number, each.seen.sha256] = photo.file
            wrong = f" ({', '.join(doubt.what for doubt in doubts)})" if doubts else ""
            self._say.note(f"{number}: {photo.file}{f', {photo.shot}' if photo.shot else ''}{wrong}")


def _called(sent: SentPicture) -> str:
    """How a picture is called on the claim: by what it shows, for every phone calls its pictures alike."""
    ending = PurePosixPath(sent.name.replace("\\", "/")).suffix[:6] or ".jpg"
    return f"{'-'.join(sent.shot.split())[:60] or 'photo'}{ending.lower()}"


def _alike(taken: TakenIn, replaced: str) -> list[PictureDoubt]:
    """That a picture looks like another one; not where it takes the place of that one."""
    from claimpack.core.clauses.picture_doubts import like_another

    return [like_another(other) for _, _, other in taken.alike if other != replaced]


def _asked(claim: Claim, plan: Plan | None) -> tuple[str, ...]:
    from claimpack.core.judging.conditions.evidence_asked import shots_asked

    return shots_asked(claim, plan) if plan else ()


def _findings(plan: Plan | None) -> list[str]:
    return [str(getattr(each, "what", each)) for each in plan.requires.findings] if plan else []
