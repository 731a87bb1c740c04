"""What may follow where a claim or a held part stands, and the commands that take it further."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal

from claimpack.core.events import Happening
from claimpack.core.money import in_money
from claimpack.core.part_codes import PartCode
from claimpack.core.part_states import PartState
from claimpack.core.states import Standing, State
from claimpack.errors import WrongState

CLAIM = "CLAIM"
"""What stands for a claim's number where it is not known."""

_FOLLOWS: Mapping[str, tuple[State, ...]] = {
    "edited": ("draft",),
    "corrected": ("filed", "questioned", "accepted", "refused"),
    "filed": ("draft", "questioned", "refused"),
    "received": ("filed", "questioned"),
    "answered": ("filed", "questioned", "refused"),
    "answer undone": ("questioned", "accepted", "refused"),
    "paid": ("filed", "questioned", "accepted", "paid"),
    "payment undone": ("accepted", "paid"),
    "charged back": ("paid", "accepted"),
    "written off": ("filed", "questioned", "accepted", "refused"),
    "withdrawn": ("draft", "filed", "questioned", "accepted", "refused"),
    "reopened": ("withdrawn", "written off"),
}

_WITH_A_REFUSED_REST = ("corrected", "filed", "answered", "written off")
"""What follows besides while the maker has accepted a part and refused the rest, paid or not."""

_PART_FOLLOWS: Mapping[str, tuple[PartState, ...]] = {
    "part moved": ("held", "called back", "released"),
    "part called back": ("held",),
    "part sent": ("called back",),
    "part released": ("held", "called back"),
    "part scrapped": ("released",),
    "part call-back undone": ("called back",),
    "part sending undone": ("sent",),
    "part release undone": ("released",),
    "part scrapping undone": ("scrapped",),
}

_SAID = {
    "answer undone": "have its answer undone",
    "payment undone": "have its payment undone",
    "part call-back undone": "have its call-back undone",
    "part sending undone": "have its sending undone",
    "part release undone": "have its release undone",
    "part scrapping undone": "have its scrapping undone",
}

_WAYS: Mapping[State, tuple[str, ...]] = {
    "draft": ("filed", "withdrawn"),
    "filed": ("answered", "withdrawn"),
    "questioned": ("filed", "answered"),
    "accepted": ("answer undone", "payment undone", "paid"),
    "refused": ("filed", "answered", "written off"),
    "paid": ("reopened", "payment undone", "charged back", "filed"),
    "written off": ("reopened",),
    "withdrawn": ("reopened",),
}
"""What takes a claim further, the likeliest first."""

_INSTEAD: Mapping[str, tuple[str, ...]] = {"withdrawn": ("written off",)}
"""What may be meant besides by somebody who tries a step in vain."""

_COMMANDS: Mapping[str, str] = {
    "filed": "send it in: claimpack file {number}",
    "answered": "record an answer of the maker's: claimpack answer {number} accepted|part|refused|questioned",
    "answer undone": "its answer was a mistake: claimpack answer {number} --undo --because TEXT",
    "paid": "money came: claimpack pay {number} AMOUNT",
    "payment undone": "its payment was a mistake: claimpack pay {number} --undo --because TEXT",
    "charged back": "the maker took money back: claimpack pay {number} AMOUNT --charged-back --because TEXT",
    "written off": "give it up: claimpack write-off {number} --because TEXT",
    "withdrawn": "take it back: claimpack withdraw {number} --because TEXT",
    "reopened": "take up again what was given up: claimpack reopen {number} --because TEXT",
}

_PART_COMMANDS: Mapping[PartState, str] = {
    "held": "The maker wants it: claimpack hold call-back {code}; it lets it go: claimpack hold release {code} "
    "--because TEXT",
    "called back": "It goes to the maker: claimpack hold send {code}; the maker lets it go: claimpack hold release "
    "{code} --because TEXT; it names another day: claimpack hold call-back {code} --send-by DATE",
    "sent": "See what became of it: claimpack history {number}; if its sending was a mistake: claimpack hold send "
    "{code} --undo --because TEXT",
    "released": "It may go: claimpack hold scrap {code}; its release was a mistake: claimpack hold release {code} "
    "--undo --because TEXT",
    "scrapped": "See what became of it: claimpack history {number}; if its scrapping was a mistake: claimpack hold "
    "scrap {code} --undo --because TEXT",
}


def may_follow(standing: Standing, happening: Happening, number: str = CLAIM) -> None:
    """Refuse what does not follow from where a claim or one of its parts stands.

    Args:
        standing: where the claim stands.
        happening: what is about to be recorded.
        number: the claim's number, for the message.

    Raises:
        WrongState: it does not follow; the message names the state, what may happen in it, and the commands.

    Source: the states of a claim and of a held part are this tool's, no source.
    """
    what = happening.what
    if what in _PART_FOLLOWS:
        nth = int(happening.facts["part"])
        state = standing.part(nth).state
        another_day = what == "part called back" and bool(happening.facts.get("send_by"))
        if state not in _PART_FOLLOWS[what] and not (another_day and state == "called back"):
            raise _part_refusal(what, state, PartCode(number, nth))
    elif what in _FOLLOWS and not _follows(what, standing):
        raise _refusal(what, standing, number)


def filed_otherwise(standing: Standing, number: str, claimed: Decimal) -> str:
    """That a claim went to the maker at another amount than it comes to now, and how to send it again where that goes.

    Empty where it is not with the maker, or comes to what was filed.

    Source: a rule of this tool's, no source.
    """
    if standing.state not in _WITH_THE_MAKER or standing.claimed == claimed:
        return ""
    at = f"{number} was filed at {in_money(standing.claimed, standing.currency)}"
    if _follows("filed", standing):
        return f"{at}; send it again: claimpack file {number}"
    return f"{at}; the maker has that version, and this one can be sent when it asks or refuses."


_WITH_THE_MAKER = ("filed", "questioned", "accepted", "refused")


def _follows(what: str, standing: Standing) -> bool:
    if what == "withdrawn" and standing.paid > 0:
        return False
    if what == "answered" and standing.state == "accepted" and not standing.answers:
        return True  # it was accepted by paying short of the claim; the written answer comes after
    if what == "reopened" and standing.rest_written_off:
        return True
    if what == "answer undone" and standing.state == "paid" and standing.answers:
        return standing.answers[-1].after == len(standing.payments)  # it came after the money, and settled the claim
    if what in ("payment undone", "charged back") and standing.payments and standing.state in _WITH_THE_MAKER:
        return True  # a part may be paid before any answer
    if what == "payment undone" and standing.payments and standing.state == "written off":
        return standing.payments[-1].amount < 0  # a charge-back: undone, it takes the write-off of it along
    return standing.state in _FOLLOWS[what] or (bool(standing.refused_rest) and what in _WITH_A_REFUSED_REST)


def _refusal(what: str, standing: Standing, number: str) -> WrongState:
    state = standing.state
    step = _SAID.get(what, f"be {what}")
    there = [kind for kind in _FOLLOWS if _follows(kind, standing) and _is_there(kind, standing)]
    possible = [kind for kind in there if kind not in _SAID]
    ahead = _listed([_in_words(kind, standing) for kind in possible])
    why = f"What can happen to {_A.get(state, f'a {state} claim')}: {ahead}."
    if what == "withdrawn" and standing.paid > 0:
        why = f"{in_money(standing.paid, standing.currency)} was paid for it. {why}"
    ways = [kind for kind in (*_WAYS[state], *_INSTEAD.get(what, ())) if kind in there]
    do = "; ".join(_COMMANDS[kind].format(number=number) for kind in ways)
    return WrongState(f"the claim is {state}, so it cannot {step} now", why, f"{do[:1].upper()}{do[1:]}")


_A: Mapping[State, str] = {
    "draft": "a draft",
    "accepted": "an accepted claim",
    "written off": "a claim that is written off",
    "withdrawn": "a claim that is withdrawn",
}

_IN_WORDS = {
    "edited": "the shop changes it",
    "corrected": "the shop corrects it",
    "filed": "it is filed",
    "received": "the day of its receipt is noted",
    "answered": "the maker answers it",
    "paid": "money comes in",
    "charged back": "the maker takes money back",
    "written off": "it is written off",
    "withdrawn": "it is withdrawn",
    "reopened": "it is taken up again",
}


def _in_words(kind: str, standing: Standing) -> str:
    again = {"filed": standing.filed and "it is sent in again", "paid": standing.paid and "more money comes in"}
    return str(again.get(kind) or _IN_WORDS[kind])


def _listed(said: Sequence[str]) -> str:
    return " or ".join([", ".join(said[:-1]), said[-1]] if len(said) > 1 else said)


def _is_there(kind: str, standing: Standing) -> bool:
    """Whether there is something to take back, where a way takes something back."""
    there = {"answer undone": standing.answers, "payment undone": standing.payments, "charged back": standing.paid > 0}
    return bool(there.get(kind, True))


def _part_refusal(what: str, state: PartState, code: PartCode) -> WrongState:
    step = _SAID.get(what, f"be {what.removeprefix('part ')}")
    there = [kind for kind, states in _PART_FOLLOWS.items() if state in states and kind not in _SAID]
    possible = [kind.removeprefix("part ") for kind in there]
    is_in = (
        "the maker did not call the part back"
        if (what, state) == ("part sent", "held")
        else f"the held part is {state}"
    )
    return WrongState(
        f"{is_in}, so it cannot {step} now",
        f"From {state} it can be: {', '.join(possible) or 'nothing more'}.",
        _PART_COMMANDS[state].format(code=code, number=code.claim),
    )
