"""What rules go by beside the claims themselves, and which of them were not asked, or in part, where it is wanting."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection
from typing import NamedTuple

from claimpack.core.auditing.audited import AuditedClaim
from claimpack.core.auditing.wording import LACKS
from claimpack.core.holding.release_rules import NOT_INSPECTED
from claimpack.core.values.wording.sentence import say


class Want(NamedTuple):
    """Something that rules go by and that may be wanting.

    Args:
        key: what it is called; of a setting, its key in shop.toml.
        lacks: whether a claim of a shop that is known lacks it; one want at most keeps a rule from being asked of it.
        not_asked: the rules that ask nothing without it.
        in_part: the rules that know less without it.
        is_setting: whether a shop may leave it untold; all else is out of reach, and nothing found says nothing.
        named: which one is wanting, where there are several.
    """

    key: str
    lacks: Callable[[AuditedClaim], bool]
    not_asked: tuple[str, ...] = ()
    in_part: tuple[str, ...] = ()
    is_setting: bool = False
    named: Callable[[AuditedClaim], str] = lambda _: ""


def _has_floor(audited: AuditedClaim) -> bool:
    """Whether terms give what the plan pays a floor, if there are any."""
    return audited.plan is not None and audited.asks_for_money


def _unread(audited: AuditedClaim) -> str:
    return audited.terms.unread if audited.terms else ""


def _rate_untold(audited: AuditedClaim) -> bool:
    terms = audited.terms
    goes_by_it = _has_floor(audited) and terms is not None and terms.labour_floor == "retail"
    return goes_by_it and audited.retail.labour_rate is None


def _let_go_uninspected(audited: AuditedClaim) -> bool:
    return any(part.rule == NOT_INSPECTED for part in audited.standing.parts)


def _is_reached(audited: AuditedClaim) -> bool:
    """Whether the shop tells any way in which it is reached."""
    house = audited.house
    return any((house.phone, house.email, house.address, *(each.phone for each in house.staff)))


def _way_untold(key: str) -> Want:
    return Want(
        key,
        lambda audited: _is_reached(audited) and not getattr(audited.house, key),
        in_part=("owner-at-the-shop",),
        is_setting=True,
    )


_OF_A_KNOWN_SHOP = (
    Want(
        "plan",
        lambda audited: audited.plan is None and not audited.is_withdrawn,
        (
            "below-floor",
            "filed-late",
            "included-by-another-name",
            "just-below-limit",
            "labour-beyond-schedule",
            "labour-hardly-worked",
            "owner-pays-this",
            "same-figure-every-time",
            "serial-of-another-form",
        ),
        ("evidence-missing", "held-part-missing", "labour-at-one-time"),
    ),
    Want(
        "terms_unread", lambda audited: _has_floor(audited) and bool(_unread(audited)), ("below-floor",), named=_unread
    ),
    Want(
        "terms_unread",
        lambda audited: _let_go_uninspected(audited) and bool(_unread(audited)),
        in_part=("scrapped-early",),
        named=_unread,
    ),
    Want(
        "parts_list_unread",
        lambda audited: bool(audited.price_list.wrong),
        ("part-over-list",),
        named=lambda audited: audited.price_list.wrong,
    ),
    Want(
        "vault",
        lambda audited: bool(audited.house.vault_gone and audited.is_with_the_maker and audited.standing.packet),
        ("packet-changed",),
        named=lambda audited: audited.house.vault_gone,
    ),
    Want("terms", lambda audited: _has_floor(audited) and audited.terms is None, ("below-floor",), is_setting=True),
    Want(
        "terms",
        lambda audited: _let_go_uninspected(audited) and audited.terms is None,
        in_part=("scrapped-early",),
        is_setting=True,
    ),
    Want("labour_rates", _rate_untold, in_part=("below-floor",), is_setting=True),
    Want(
        "opening_hours",
        lambda audited: not audited.house.hours and not audited.house.holidays,
        ("work-when-shut",),
        is_setting=True,
    ),
    Want(
        "opening_hours",
        lambda audited: not audited.house.hours and bool(audited.house.holidays),
        in_part=("work-when-shut",),
        is_setting=True,
    ),
    Want(
        "parts_list",
        lambda audited: audited.price_list.costs is None and not audited.price_list.wrong,
        ("part-over-list",),
        is_setting=True,
        named=lambda audited: audited.price_list.file,
    ),
    Want("phone", lambda audited: not _is_reached(audited), ("owner-at-the-shop",), is_setting=True),
    *(_way_untold(key) for key in ("phone", "email", "address", "staff")),
    Want("staff", lambda audited: not audited.house.staff, in_part=("owner-is-staff",), is_setting=True),
)

_NEVER = tuple(dict.fromkeys(rule for want in _OF_A_KNOWN_SHOP for rule in want.not_asked))
_SHOP = Want(
    "shop",
    lambda audited: not audited.house.is_known,
    _NEVER,
    tuple(dict.fromkeys(rule for want in _OF_A_KNOWN_SHOP for rule in want.in_part if rule not in _NEVER)),
)

WANTS = (_SHOP, *_OF_A_KNOWN_SHOP)
"""Everything that rules go by beside the claims; what is out of reach comes before what a shop may leave untold."""


def goes_by(rule: str) -> tuple[str, ...]:
    """What a rule goes by beside the claims, in whole or in part, each once; keys of shop.toml by their name."""
    wants = [want.key for want in _OF_A_KNOWN_SHOP if rule in (*want.not_asked, *want.in_part)]
    return tuple(dict.fromkeys(key.removesuffix("_unread") for key in wants))


class NotAsked(NamedTuple):
    """Rules that were not asked of claims of one shop, or in part alone, and what was wanting."""

    shop: str
    lacks: str
    named: str
    claims: int
    rules: tuple[str, ...]
    in_part: tuple[str, ...]
    is_setting: bool

    @property
    def what(self) -> str:
        """What is wanting, in a sentence."""
        return say(self.lacks, named=self.named).said(LACKS)

    def of(self, rules: Collection[str]) -> NotAsked:
        """The same as far as it is about some of the rules."""
        return self._replace(
            rules=tuple(rule for rule in self.rules if rule in rules),
            in_part=tuple(rule for rule in self.in_part if rule in rules),
        )


class Wanting:
    """What is wanting for rules, counted claim by claim."""

    def __init__(self, rules: Collection[str]) -> None:
        self._rules = rules
        self._wants = [
            (place, want) for place, want in enumerate(WANTS) if not {*want.not_asked, *want.in_part}.isdisjoint(rules)
        ]
        self._counts = Counter[tuple[int, str, str]]()

    def add(self, audited: AuditedClaim) -> None:
        """Count a claim under everything that it lacks."""
        for place, want in self._wants:
            # of a shop that is not known nothing else is known either
            if (want is _SHOP or audited.house.is_known) and want.lacks(audited):
                self._counts[place, audited.standing.shop, want.named(audited)] += 1

    def told(self) -> tuple[NotAsked, ...]:
        """What was wanting, in the order of all that may be, then by shop."""
        return tuple(
            NotAsked(shop, want.key, named, claims, want.not_asked, want.in_part, want.is_setting).of(self._rules)
            for (place, shop, named), claims in sorted(self._counts.items())
            for want in [WANTS[place]]
        )
