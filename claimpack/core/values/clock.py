"""A technician's clock: which moment a written time is, how long work took, and when a clock was forgotten."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable

from claimpack.errors import BadInput, WrongState

LONGEST = dt.timedelta(hours=12)
"""The longest that a clock runs before it counts as forgotten."""

LONGEST_OVERNIGHT = dt.timedelta(hours=6)
"""The longest that a clock runs over midnight before it counts as forgotten: less than a short night's rest."""

Shown = Callable[[dt.datetime], dt.datetime]
"""The moment at which the shop's clocks show a time without a zone; its fold chooses between two such moments."""

_TIME = r"(?P<day>\d{4}-\d\d-\d\d[T ])?(?P<time>\d\d?:\d\d(:\d\d)?)(?P<offset>Z|[+-]\d\d:\d\d)?"
_FORMS = "Write it as 16:30 for today, or whole: 2026-02-24T16:30."


def fixed(at: dt.datetime) -> dt.datetime:
    """A time to the second, with the UTC offset it had and no rules of a time zone, as it is kept."""
    return dt.datetime.fromisoformat(at.replace(microsecond=0).isoformat())


def time_between(started: dt.datetime, ended: dt.datetime) -> dt.timedelta:
    """The time that passed, whatever clocks were set to meanwhile; both times carry an offset, or neither.

    Source: RFC 3339, section 4: a local time and its offset name one moment.
    """
    # clocks without an offset are believed: they were read off one wall
    if started.tzinfo is None:
        return ended - started
    # two moments of one zone would be subtracted by what the wall showed, an hour off on two nights a year
    return ended.astimezone(dt.UTC) - started.astimezone(dt.UTC)


def is_forgotten(started: dt.datetime, now: dt.datetime, shown: Shown) -> bool:
    """Whether a running clock was forgotten: it ran longer than twelve hours, or than six and over midnight.

    Hours are those that passed; midnight is that of the shop's clocks.

    Source: common practice, no source.
    """
    passed = time_between(started, now)
    return passed > LONGEST or (passed > LONGEST_OVERNIGHT and _is_overnight(started, now, shown))


def _is_overnight(started: dt.datetime, now: dt.datetime, shown: Shown) -> bool:
    return _wall(started, shown).date() != now.date()


def _wall(at: dt.datetime, shown: Shown) -> dt.datetime:
    """What the shop's clocks showed at a moment."""
    wall = at.replace(tzinfo=None)
    if at.replace(microsecond=0) in _readings(wall.replace(microsecond=0), shown):
        return wall
    return at.astimezone(shown(wall).tzinfo).replace(tzinfo=None)


def moment_of(written: str, option: str, now: dt.datetime, shown: Shown) -> dt.datetime:
    """The moment somebody means by a written time.

    Args:
        written: `16:30` for today, or a whole time such as `2026-02-24T16:30`, with its offset where that is needed.
        option: where it was written, for messages.
        now: the time it is where the shop is.
        shown: what the shop's clocks show.

    Raises:
        BadInput: it is no time, or the clocks of the shop skipped it, or showed it twice.

    Source: PEP 495: a fold tells two readings of one wall clock apart.
    """
    day, time = _read(written, option)
    wall = dt.datetime.combine(day or now.date(), time)
    return _only(_moments(wall, shown), wall, option)


def _read(written: str, option: str) -> tuple[dt.date | None, dt.time]:
    """The day written down, if one is, and the time, with its offset if it has one."""
    found = re.fullmatch(_TIME, written.strip(), re.ASCII)
    if not found:
        raise BadInput(f"{option}: {written!r} is not a time of day", do=_FORMS)
    try:
        day = dt.date.fromisoformat(found["day"][:10]) if found["day"] else None
        hour, _, rest = found["time"].partition(":")
        return day, dt.time.fromisoformat(f"{hour:0>2}:{rest}{found['offset'] or ''}")
    except ValueError:
        raise BadInput(f"{option}: {written!r} is on no calendar and no clock", do=_FORMS) from None


def _moments(wall: dt.datetime, shown: Shown) -> list[dt.datetime]:
    """The moments that a time may mean: the one that its offset names, else those at which the clocks showed it."""
    return [wall] if wall.tzinfo else _readings(wall, shown)


def _readings(wall: dt.datetime, shown: Shown) -> list[dt.datetime]:
    """The moments at which clocks showed that time: one, none when they were put on, two when they were put back."""
    folds = [fixed(shown(wall.replace(fold=fold))) for fold in (0, 1)]
    # a time that was skipped is shown by neither fold, one shown twice by both
    return list(dict.fromkeys(at for at in folds if at.replace(tzinfo=None) == wall))


def _only(readings: list[dt.datetime], wall: dt.datetime, option: str) -> dt.datetime:
    if not readings:
        raise BadInput(
            f"{option}: no clock showed {wall:%H:%M} on {wall:%Y-%m-%d}",
            "The clocks were put on that night, and skipped it.",
            "Give the time as the clocks showed it.",
        )
    if len(readings) > 1:
        both = " or ".join(at.isoformat(timespec="minutes") for at in readings)
        raise BadInput(
            f"{option}: clocks showed {wall:%H:%M} on {wall:%Y-%m-%d} twice",
            "They were put back that night; which of the two is meant decides an hour of labour.",
            f"Write it with its offset: {both}.",
        )
    return readings[0]


def from_to(started: str, ended: str, now: dt.datetime, shown: Shown) -> tuple[dt.datetime, dt.datetime]:
    """The moments at which work began and ended, as written with --started and --ended.

    Raises:
        BadInput: one is no time, or the end is before the start.
    """
    begun, done = moment_of(started, "--started", now, shown), moment_of(ended, "--ended", now, shown)
    if time_between(begun, done) < dt.timedelta(0):
        raise BadInput(
            f"--ended {shop_time(done, shown)} is before --started {shop_time(begun, shown)}",
            "Work ends after it began.",
            _over_midnight(begun, done, now) if begun.date() == done.date() else "Correct one of them.",
        )
    return begun, done


def _over_midnight(begun: dt.datetime, done: dt.datetime, now: dt.datetime) -> str:
    """How to write work from one day into the next: from yesterday into today, where it is not that late yet."""
    first = begun.date() - dt.timedelta(days=1 if time_between(begun, now) < dt.timedelta(0) else 0)
    last = first + dt.timedelta(days=1)
    return f"Past midnight, write both with their day: --started {first}T{begun:%H:%M} --ended {last}T{done:%H:%M}"


def stopped_at(started: dt.datetime, written: str, now: dt.datetime, shown: Shown) -> dt.datetime:
    """When a running clock is to be stopped: now, unless an end is written; a forgotten clock needs one.

    A time without a day is the one time at which the clocks showed it since the start: `0:10` on a clock that was
    started at 23:30 is of the next day.

    Raises:
        WrongState: the clock was forgotten and no end is written.
        BadInput: the end written is no time, is before the start or after now, or does not say on which day.

    Source: a rule of this tool's, no source: labour is claimed as it was worked, never guessed.
    """
    if not written and is_forgotten(started, now, shown):
        raise _forgotten(started, now, shown)
    if written in ("", "now"):
        return fixed(now)
    day, time = _read(written, "--at")
    # a time alone may be of either day
    if day is None and _is_overnight(started, now, shown):
        return _since(started, time, now, shown)
    ended = moment_of(written, "--at", now, shown)
    if time_between(started, ended) < dt.timedelta(0):
        raise BadInput(f"--at: {written} is before the clock was started, {shop_time(started, shown)}", do=_FORMS)
    if time_between(ended, now) < dt.timedelta(0):
        raise BadInput(f"--at: {written} has not come yet; it is {shop_time(now, shown)}", do=_FORMS)
    return ended


def _forgotten(started: dt.datetime, now: dt.datetime, shown: Shown) -> WrongState:
    passed = time_between(started, now)
    limit = "12 hours" if passed > LONGEST else "6 hours, and over midnight"
    return WrongState(
        f"the clock has run since {shop_time(started, shown)} and was forgotten",
        f"It ran {time_in_words(passed)}, more than {limit}; nobody but you knows when the work ended.",
        f"Say when: claimpack labour stop --at {_wall(started, shown):%Y-%m-%d}T…, or --at now; "
        "or throw it away: --discard",
    )


def _since(started: dt.datetime, time: dt.time, now: dt.datetime, shown: Shown) -> dt.datetime:
    """The one moment between two of different days at which the clocks showed a time of day."""
    # a day to each side, as the shop's clocks and those of the start may stand on different dates
    days = {at.date() + dt.timedelta(days=n) for at in (_wall(started, shown), now) for n in (-1, 0, 1)}
    moments = [at for day in sorted(days) for at in _moments(dt.datetime.combine(day, time), shown)]
    found = [at for at in moments if min(time_between(started, at), time_between(at, now)) >= dt.timedelta(0)]
    said, since = f"{time:%H:%M}", shop_time(started, shown)
    if not found:
        raise BadInput(
            f"--at: no clock has shown {said} since this one was started, {since}",
            f"It is {shop_time(now, shown)}.",
            "Give a time in between, or --at now.",
        )
    if len(found) > 1:
        raise BadInput(
            f"--at: {said} does not say on which day",
            f"Clocks have shown it more than once since this one was started, {since}.",
            f"Write it whole: {' or '.join(shop_time(at, shown).replace(' ', 'T') for at in found)}.",
        )
    return found[0]


def shop_time(at: dt.datetime, shown: Shown) -> str:
    """A moment as the shop's clocks show it, to the minute: `2026-03-14 09:05`.

    Its UTC offset is told only where the clocks alone do not say which moment is meant: they showed that time
    twice, since they were put back; or the moment was written with the offset of another place.
    """
    wall = at.replace(tzinfo=None, microsecond=0)
    is_plain = at.tzinfo is None or _readings(wall, shown) == [at.replace(microsecond=0)]
    return (wall if is_plain else at).isoformat(sep=" ", timespec="minutes")


def span_in_words(started: dt.datetime, ended: dt.datetime, shown: Shown) -> str:
    """From when to when: `2026-03-14 09:05 to 10:20`; the day is said again where it is another one."""
    first, last = shop_time(started, shown), shop_time(ended, shown)
    day = f"{started:%Y-%m-%d} "
    return f"{first} to {last.removeprefix(day)}"


def time_in_words(passed: dt.timedelta) -> str:
    """Time as a clock shows it, hours and whole minutes: `1 h 05 min`."""
    minutes = int(passed.total_seconds()) // 60
    return f"{minutes // 60} h {minutes % 60:02} min" if minutes >= 60 else f"{minutes} min"
