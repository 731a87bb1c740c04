"""Plans, terms, layouts, stocks and forms: found by id, the nearest winning."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from claimpack.errors import BadInput, NotFound
from claimpack.file_contents import hash_of, read_bytes, read_text

if TYPE_CHECKING:
    from claimpack.core.claims.claim import Claim
    from claimpack.core.plans.campaign import Campaign
    from claimpack.core.plans.plan import Plan
    from claimpack.core.plans.terms import Terms

COVERAGE, TERMS, PACKET, TAG = "coverage", "terms", "packet", "tag"
FORMS, CAMPAIGNS = "forms", "campaigns"
KINDS = (COVERAGE, TERMS, PACKET, TAG, FORMS, CAMPAIGNS)


class Template(NamedTuple):
    """A template file as parsed, and where it lies."""

    keys: dict[str, Any]
    path: Path

    @property
    def id(self) -> str:
        """The id the file gives itself, else its name."""
        return str(self.keys.get("id", self.path.stem))

    @property
    def is_window_set(self) -> bool:
        """Whether a coverage file holds windows of law rather than a maker's plan."""
        return "maker" not in self.keys and not self.is_campaign

    def is_of(self, maker: str) -> bool:
        """Whether it is a file of a maker, by its word or by its name."""
        from claimpack.core.values.words import folded

        return folded(maker) in [folded(str(self.keys.get(key, ""))) for key in ("maker", "maker_name")]

    @property
    def is_campaign(self) -> bool:
        """Whether the file is a maker's campaign."""
        return {"closes", "operation", "serials"} <= self.keys.keys()


class Places(NamedTuple):
    """Where to look, the nearest first: files and folders named on the command line, the claim folder, the shop."""

    named: tuple[Path, ...] = ()
    claim: Path | None = None
    shop: Path | None = None

    def folders(self, kind: str) -> list[Path]:
        """The places to look for one kind of template, the shipped one last."""
        own = [place / kind for place in (self.claim, self.shop) if place]
        return [*self.named, *own, shipped(kind)]


def shipped(kind: str) -> Path:
    """The folder of the templates that come with the program."""
    here = Path(__file__).resolve().parent
    inside = here / "templates" / kind
    return inside if inside.is_dir() else here.parent / "templates" / kind


def templates(kind: str, places: Places) -> dict[str, Template]:
    """Every template of a kind, by id; of two with the same id the nearer one.

    Raises:
        NotFound: a place named on the command line is not there.
        BadInput: a file is no TOML.
    """
    return _nearest((path, read_text(path)) for path in _files(kind, places))


def _files(kind: str, places: Places) -> Iterator[Path]:
    for path in places.named:
        if not path.exists():
            raise NotFound(f"{path}: there is no such file or folder", do="Check the path given.")
    for place in places.folders(kind):
        yield from _toml_files(place)


def _nearest(files: Iterable[tuple[Path, str]]) -> dict[str, Template]:
    """The templates in files, the nearest file first; of two with the same id the nearer one."""
    from claimpack.folder.toml_files import parse_toml

    found: dict[str, Template] = {}
    for path, text in files:
        template = Template(parse_toml(text, str(path)), path)
        found.setdefault(template.id, template)
    return found


def _toml_files(place: Path) -> Iterator[Path]:
    if place.is_file():
        yield place
    elif place.is_dir():
        # Editors and file servers leave hidden files beside those that people write.
        yield from sorted(path for path in place.glob("*.toml") if not path.name.startswith("."))


def template(kind: str, wanted: str, places: Places) -> Template:
    """The nearest template with an id; an existing file's path serves as well.

    Raises:
        NotFound: there is none; the nearest id is suggested.
    """
    from claimpack.core.values.words import did_you_mean
    from claimpack.folder.toml_files import read_toml

    path = Path(wanted)
    if path.suffix == ".toml" and path.is_file():
        return Template(read_toml(path), path)
    found = templates(kind, places)
    if wanted not in found:
        # Another state's law is none to guess at, however alike the two are written.
        alike = [each for each in found if kind != TERMS or each.startswith(wanted) or wanted.startswith(each)]
        near = did_you_mean(wanted, alike) if alike else "Leave the terms out where there are none for your state."
        see = f"{near} See them all: claimpack plan list".strip()
        raise NotFound(f"{_NAMES[kind]} {wanted!r} {'are' if kind == TERMS else 'is'} not there", do=see)
    return found[wanted]


def whole_layout(keys: dict[str, Any], places: Places, source: str) -> dict[str, Any]:
    """The keys of a packet layout with those of the one it is `like`, where it says so: its own go first.

    Raises:
        NotFound: there is no such layout.
        BadInput: that one is like another itself.
    """
    wanted = keys.get("like")
    if not isinstance(wanted, str):
        return keys
    base = template(PACKET, wanted, places).keys
    if "like" in base:
        raise BadInput(f"{source}: like {wanted!r} is like {base['like']!r} itself", do="Name that one.")
    own = {key: value for key, value in keys.items() if key != "like"}
    tables: dict[str, Any] = {
        key: {**base[key], **own[key]} for key in ("words", "says", "spoken") if key in base and key in own
    }
    return {**base, **own, **tables}


def must_be_there(kind: str, wanted: str, places: Places, source: str) -> None:
    """Refuse an id that no template has; one whose file has its name is found without reading the others.

    Raises:
        NotFound: there is none; the setting that names it is told, and the nearest id.
    """
    from claimpack.folder.toml_files import read_toml

    named = [place / f"{wanted}.toml" for place in places.folders(kind)]
    if any(path.is_file() and Template(read_toml(path), path).id == wanted for path in named):
        return
    try:
        template(kind, wanted, places)
    except NotFound as missing:
        raise NotFound(f"{source}: {missing.what}", f"A file of your own belongs into {kind}/.", missing.do) from None


_NAMES = {
    COVERAGE: "coverage plan",
    TERMS: "payment terms",
    PACKET: "packet layout",
    TAG: "tag stock",
    FORMS: "maker's form",
    CAMPAIGNS: "campaign",
}


def plans_for(claim: Claim, places: Places, judged_under: str = "") -> list[Plan]:
    """The plans that a claim may fall under, and no others, which takes less; every plan where none is the claim's.

    Args:
        claim: the claim.
        places: where plans lie.
        judged_under: the id of the plan it was last judged under, which is wanted too; empty where there is none.

    Raises:
        BadInput: one of them, or a window set it names, has problems.
    """
    from claimpack.core.verdict.matching import match

    of_its_maker = [] if claim.plan or claim.case == "campaign" else read_plans(places, claim.maker)
    is_there = not judged_under or any(plan.id == judged_under for plan in of_its_maker)
    return of_its_maker if is_there and match(claim, of_its_maker).plan else read_plans(places)


def read_plans(places: Places, maker: str = "") -> list[Plan]:
    """Every plan within reach, or those of one maker, the windows of the statutes it names taken in.

    Raises:
        BadInput: a plan or a window set has problems, or names a statute that is not there.
    """
    of_plans, of_campaigns = (
        tuple((path, read_text(path)) for path in _files(kind, places)) for kind in (COVERAGE, CAMPAIGNS)
    )
    return list(_plans_in(of_plans, of_campaigns, maker))


# Many claim folders are taken in under the same plans: reading one plan takes longer than judging a claim by it.
@lru_cache(maxsize=4)
def _plans_in(
    files: tuple[tuple[Path, str], ...], campaigns: tuple[tuple[Path, str], ...] = (), maker: str = ""
) -> tuple[Plan, ...]:
    from claimpack.core.facts.keys import record_from
    from claimpack.core.plans.plan import Plan

    found = {name: entry for name, entry in _nearest(files).items() if not entry.is_campaign}
    sets = {name: entry for name, entry in found.items() if entry.is_window_set}
    plans = [entry for entry in found.values() if not entry.is_window_set and (not maker or entry.is_of(maker))]
    read = (with_statutes(record_from(Plan, entry.keys, str(entry.path)), sets, str(entry.path)) for entry in plans)
    of_others = found.keys() - {entry.id for entry in plans}
    of_these = [entry for entry in _nearest(campaigns).values() if entry.keys.get("plan") not in of_others]
    return with_campaigns(tuple(read), of_these)


def with_campaigns(plans: Sequence[Plan], found: Iterable[Template]) -> tuple[Plan, ...]:
    """The plans, each with the campaigns that name it; files that are no campaigns are passed over.

    Raises:
        BadInput: a campaign has problems, or names a plan that is not there.
    """
    from claimpack.core.facts.keys import record_from
    from claimpack.core.plans.campaign import Campaign
    from claimpack.core.values.words import did_you_mean

    of_plan: dict[str, tuple[Campaign, ...]] = {plan.id: plan.campaign for plan in plans}
    for entry in found:
        if not entry.is_campaign:
            continue
        campaign = record_from(Campaign, entry.keys, str(entry.path))
        if campaign.plan not in of_plan:
            raise BadInput(
                f"{entry.path}, key plan: {campaign.plan!r} is not there", do=did_you_mean(campaign.plan, of_plan)
            )
        of_plan[campaign.plan] = (*of_plan[campaign.plan], campaign)
    return tuple(
        plan if plan.campaign == of_plan[plan.id] else plan.model_copy(update={"campaign": of_plan[plan.id]})
        for plan in plans
    )


def mark_of_plans(places: Places) -> str:
    """A mark of every plan file within reach, which changes with any of them; 16 hexadecimal digits.

    The files are not looked into, so that a list costs no reading of plans where none has changed.
    """
    files = [path for kind in (COVERAGE, CAMPAIGNS) for place in places.folders(kind) for path in _toml_files(place)]
    told = "\n".join(f"{path.name} {hash_of(read_bytes(path))}" for path in files)
    return hash_of(told.encode())[:16]


def with_statutes(plan: Plan, sets: Mapping[str, Template], source: str) -> Plan:
    """A plan with the windows of every statute it names.

    Raises:
        BadInput: a statute is not there, or has problems.
    """
    from claimpack.core.facts.keys import record_from
    from claimpack.core.plans.plan import WindowSet
    from claimpack.core.values.words import did_you_mean

    for wanted in plan.statutes:
        if wanted not in sets:
            raise BadInput(f"{source}, key statutes: {wanted!r} is not there", do=did_you_mean(wanted, sets))
        plan = plan.with_windows_of(record_from(WindowSet, sets[wanted].keys, str(sets[wanted].path)))
    return plan


def read_terms(wanted: str, places: Places) -> Terms:
    """Payment terms by id.

    Raises:
        NotFound: there are none of that id.
        BadInput: they have problems.
    """
    from claimpack.core.facts.keys import record_from
    from claimpack.core.plans.terms import Terms

    found = template(TERMS, wanted, places)
    return record_from(Terms, found.keys, str(found.path))
