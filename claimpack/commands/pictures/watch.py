"""`claimpack photo watch`: pictures that a phone's sync drops into a folder are filed as they come."""

from __future__ import annotations

import datetime as dt
import threading
import uuid
from collections.abc import Callable, Generator, Iterable
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.core.steps.photo_sorting import LeftAlone, PhotoToSort, SortedPhoto

_MILLISECONDS = 100
"""Of quiet after which pictures that come together are filed together: ten of these."""


def watch_folder(
    context: Context,
    folder: Annotated[Path, Argument(metavar="FOLDER", help="Where the phone's pictures land; they stay there.")],
    claim: Annotated[
        str,
        Option("--claim", metavar="CLAIM", help="For pictures that no tag speaks for; default: the claim at hand."),
    ] = "",
    gap: Annotated[
        int, Option(metavar="MINUTES", min=1, max=1440, help="The longest time between two pictures of a claim.")
    ] = 20,
    now: Annotated[bool, Option("--now", help="File what is there already, and end.")] = False,
    minutes: Annotated[int, Option(metavar="N", min=1, max=1440, help="It ends by itself after so long.")] = 480,
    json: Json = False,
) -> int:
    """File pictures as they come into a folder.

    They go by the tag before them, else on --claim or the claim at hand; the others are asked about at the end.
    """
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.folder.at_hand import at_hand

    desk, say, world = Desk(context.obj), Say(context.obj), context.obj
    chosen = at_hand(desk.home, world.who())
    otherwise = number_of(claim) if claim else chosen.claim if chosen else ""
    if otherwise:
        desk.must_take_changes(otherwise)
    watching = _Watching(desk, say, world.path(folder), dt.timedelta(minutes=gap), otherwise)
    if now:
        watching.take(watching.lying_there())
    else:
        _tell_begun(say, folder, otherwise)
        # closed whatever happens, or its clock would keep the program from ending
        with closing(_coming(world, watching.folder, minutes)) as coming:
            for paths in coming:
                watching.take(paths)
    watching.ask_about_the_rest()
    if json:
        say.document(watching.told())
    else:
        watching.tell()
    return 0 if not watching.left else 4


class _Watching:
    """The pictures of one run: those that came, where they went, and those that nobody knows a claim for."""

    def __init__(self, desk: Desk, say: Say, folder: Path, gap: dt.timedelta, otherwise: str) -> None:
        from claimpack.errors import NotFound

        if not folder.is_dir():
            raise NotFound(f"{folder}: there is no such folder", do="Check its name; it is where pictures will land.")
        self.folder = folder
        self._desk, self._say, self._gap, self._otherwise = desk, say, gap, otherwise
        self._sort = uuid.uuid4().hex[:12]
        self._pictures: dict[str, PhotoToSort] = {}
        self._unread: dict[str, str] = {}
        self.filed: dict[str, SortedPhoto] = {}
        self.there_already: dict[str, str] = {}
        self.left: dict[str, LeftAlone] = {}

    def lying_there(self) -> list[Path]:
        """What lies in the folder now."""
        return sorted(path for path in self.folder.rglob("*") if path.is_file())

    def take(self, paths: Iterable[Path]) -> None:
        """File pictures that came; one that is not whole yet comes again."""
        from claimpack.core.steps.photo_sorting import sort_pictures
        from claimpack.evidence.reading.tag_reader import search_all

        new = [(self._name(path), path) for path in paths if _may_be_a_picture(path)]
        new = [(name, path) for name, path in new if not self._is_done(name)]
        if not new:
            return
        with self._say.progress("Photos", 2 * len(new)) as advance:
            found = search_all(new, advance)
            self._pictures |= {picture.file: picture for picture in found.pictures}
            self._unread |= dict(found.unread)
            sorting = sort_pictures(list(self._pictures.values()), self._states(), self._gap, self._otherwise)
            self._file([each for each in sorting.filed if not self._is_done(each.file)], advance)
        self.left = {each.file: each for each in sorting.left}

    def ask_about_the_rest(self) -> None:
        """Ask which claim each picture belongs to that no tag and no claim at hand speaks for."""
        from claimpack.core.steps.photo_sorting import SortedPhoto
        from claimpack.errors import ClaimpackError

        if not self._say.world.stdin.isatty():
            return
        for file, each in list(self.left.items()):
            typed = (self._say.ask(f"{file}: {each.because}. Which claim? (Enter leaves it)") or "").strip()
            try:
                if typed:
                    self._desk.must_take_changes(typed)
                    self._file([SortedPhoto(file, typed, "you said so", tag=False)], lambda: None)
                    del self.left[file]
            except ClaimpackError as error:
                self._say.note(f"{error.what}. {file} is left alone.")

    def told(self) -> dict[str, Any]:
        """What became of every picture, as scripts read it."""
        unread = [{"file": file, "because": because} for file, because in self._unread.items()]
        return {
            "sort": self._sort if self.filed else None,
            "filed": [each._asdict() for each in self.filed.values()],
            "there": [{"file": file, "as": known} for file, known in self.there_already.items()],
            "left": [*(each._asdict() for each in self.left.values()), *unread],
        }

    def tell(self) -> None:
        """The same for people."""
        from claimpack.commands.pictures.photo_filing import claims_in_words, pictures_in_words

        for file, known in self.there_already.items():
            self._say.note(f"{file} is already on the claim, as {known}.")
        for each in self.left.values():
            self._say.note(f"{each.file} is left alone: {each.because}.")
        for file, because in self._unread.items():
            self._say.note(f"{file} {because}")
        if self.filed:
            claims = claims_in_words({each.claim for each in self.filed.values()})
            self._say.answer(f"{pictures_in_words(len(self.filed))} filed on {claims}.")
            self._say.note("To take it back: claimpack photo sort --undo")
        else:
            self._say.note("No picture was filed.")

    def _file(self, wanted: list[SortedPhoto], advance: Callable[[], None]) -> None:
        from claimpack.commands.pictures.photo_filing import Incoming, alike_in_words, doubts, take_in
        from claimpack.core.steps.photo_sorting import TAG_SHOT
        from claimpack.errors import ClaimpackError
        from claimpack.evidence.pictures.likeness import look_at

        by_claim: dict[str, list[Incoming]] = {}
        for each in wanted:
            path = self.folder / each.file
            try:
                seen = look_at(path, each.file)
            except ClaimpackError as error:
                self._unread[each.file] = error.what.removeprefix(f"{each.file} ")
                continue
            finally:
                advance()
            self._unread.pop(each.file, None)
            by_claim.setdefault(each.claim, []).append(Incoming(each.file, path, seen, TAG_SHOT if each.tag else ""))
        for number, pictures in by_claim.items():
            for note in doubts(self._desk, number, pictures):
                self._say.note(note)
            self._desk.keep_all([each.path for each in pictures], [each.seen.sha256 for each in pictures])
            with self._desk.changing(number) as changing:
                taken = take_in(changing, pictures, f"photos from {self.folder.name}", self._sort)
            claims = {each.file: each for each in wanted}
            self.there_already |= {incoming.file: known for incoming, known in taken.there}
            for place, photo, incoming in taken.added:
                self.filed[incoming.file] = claims[incoming.file]
                self._say.note(f"{number}: {place}  {photo.file}")
            for note in alike_in_words(number, taken):
                self._say.note(note)

    def _is_done(self, file: str) -> bool:
        return file in self.filed or file in self.there_already

    def _states(self) -> dict[str, Any]:
        from claimpack.core.steps.photo_sorting import claim_in

        codes = (code for picture in self._pictures.values() for code in picture.codes)
        numbers = sorted({number for code in codes if (number := claim_in(code))})
        found = self._desk.book.entries(numbers)
        return {each.claim.number: self._desk.shops.other(each.standing.shop) or each.standing.state for each in found}

    def _name(self, path: Path) -> str:
        return path.relative_to(self.folder).as_posix()


def _may_be_a_picture(path: Path) -> bool:
    """Whether a file begins as a picture does, and is none that a sync is still writing under another name."""
    from claimpack.evidence.pictures.picture_kinds import HEAD, kind_of

    try:
        with path.open("rb") as stream:
            return not path.name.startswith(".") and kind_of(stream.read(HEAD)) is not None
    except OSError:
        return False


def _tell_begun(say: Say, folder: Path, otherwise: str) -> None:
    say.note(f"Pictures that come into {folder} are filed by the tag before them{_else(otherwise)}.")
    say.note("Ctrl-C ends it." if not say.world.stdin.isatty() else "Enter or Ctrl-C ends it.")


def _else(otherwise: str) -> str:
    return f", else on {otherwise}" if otherwise else "; those that no tag speaks for are asked about at the end"


def _coming(world: World, folder: Path, minutes: int) -> Generator[list[Path], None, None]:
    """The files that come into a folder, those that come together at once, until somebody ends it."""
    from watchfiles import Change, watch

    from claimpack.commands.pictures.until_enter import until_enter

    ended = threading.Event()
    late = threading.Timer(60 * minutes, ended.set)
    late.start()
    try:
        with until_enter(world, ended.set):
            for changes in watch(folder, step=_MILLISECONDS, stop_event=ended, raise_interrupt=False, rust_timeout=500):
                yield sorted({Path(path) for change, path in changes if change is not Change.deleted})
    finally:
        late.cancel()
