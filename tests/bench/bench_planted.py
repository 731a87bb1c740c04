"""How many planted irregularities an audit finds, and how many of its findings are true: by kind, seen and unseen.

Usage: python tests/bench/bench_planted.py [--claims N] [--seeds 1,2,3] [--unseen-names] [--false]

Each shop is honest but for what is planted: every way of `planted_kinds`, known while rules are worked on, and every
way of `planted_unseen`, of which only the figures are told. A planting is found where a finding of a fitting subject
names its claims; a finding is true where it names the claims of a planting of a fitting subject.
"""

from __future__ import annotations

import hashlib
import random
import sys
import time
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from by_hand import Given, arguments
from planted_cases import an_honest_shop, untangle
from planted_kinds import KINDS, Planted
from planted_scenes import drawn
from planted_shop import HOLIDAYS, OPEN, PRICES, SHOP_ADDRESS, SHOP_MAIL, SHOP_PHONE, STAFF, TODAY, Case, HonestShop
from planted_unseen import UNSEEN

from claimpack.book.tables.rows import KeptFile
from claimpack.core.auditing.audited import AuditedClaim, Edit, Irregularity, Measures
from claimpack.core.auditing.house import House, Person, PriceList
from claimpack.core.auditing.report.audit import audit, chosen_rules
from claimpack.core.claims.claim import Claim
from claimpack.core.events.events import NewEvent
from claimpack.core.events.fold import stand
from claimpack.core.judging.assessment import assess
from claimpack.core.judging.claim_summary import summary_of
from claimpack.core.steps.filing import filing_course
from claimpack.core.values.opening_hours import opening
from claimpack.core.values.words import run_on
from claimpack.evidence.pictures.likeness import likeness
from claimpack.template_files import Places, read_plans, read_terms

FITTING = {
    "identity": {"identity", "repeats", "money_lines", "pictures_and_papers", "filing", "people"},
    "pictures": {"pictures_and_papers", "alike_pictures"},
    "labour": {"labour", "labour_times", "patterns"},
    "money": {"money", "money_lines", "repeats", "identity", "labour", "patterns"},
    "facts": {"facts", "filing", "identity", "repeats"},
    "people": {"people", "patterns"},
    "patterns": {"patterns", "people"},
    "held parts": {"held_parts", "repeats"},
}
"""Which subjects a person would file a finding about such a planting under."""

NAMED = Decimal("0.3")
"""The share of a planting's claims that a finding has to name."""


@cache
def looks(shows: tuple[Any, ...]) -> str:
    return likeness(drawn(shows))


def planted_shop(seed: int, count: int) -> tuple[HonestShop, list[Planted], list[Planted]]:
    """A shop with every way planted once, the seen ones and the unseen ones."""
    shop, chance, used = an_honest_shop(seed, count), random.Random(seed * 31), set()
    both: list[list[Planted]] = []
    for ways in (KINDS, UNSEEN):
        done = []
        for kind, name, plant in ways:
            cases = plant(shop, chance, used)
            used.update(case.number for case in cases)
            if cases:
                done.append(Planted(kind, name, frozenset(case.number for case in cases)))
        both.append(done)
    # Patterns and places of people stay with them; work of others gives way.
    meant = {
        number
        for each in (*both[0], *both[1])
        if each.kind in ("labour", "patterns", "money")
        for number in each.claims
    }
    untangle(shop, meant)
    return shop, *both


PLANS = read_plans(Places())
BY_ID = {plan.id: plan for plan in PLANS}
TERMS = read_terms("us-sc", Places())


def happened(case: Case, claimed: Decimal) -> Iterator[NewEvent]:
    yield NewEvent(what="opened", on=case.opened)
    if case.filed is None:
        return
    facts = {"claimed": str(claimed), "currency": "USD", "revision": "1", "received": str(case.filed), "packet": ""}
    facts = {name: fact for name, fact in (facts | {"verdict": "covered"}).items() if fact}
    yield NewEvent(what="filed", on=case.filed, facts=facts)
    later = [(on, NewEvent(what="answered", on=on, why=why, facts={"answer": said})) for on, said, why in case.answers]
    for on, share in case.paid:
        amount = (claimed * share).quantize(Decimal("0.01"))
        later.append((on, NewEvent(what="paid", on=on, facts={"amount": str(amount)})))
    later += [(on, NewEvent(what=what, on=on, why=why, facts=facts)) for what, on, why, facts in case.part_events]
    yield from (event for _, event in sorted(later, key=lambda each: each[0]))


def audited(case: Case) -> AuditedClaim:
    """A case as the audit looks at it."""
    claim = Claim.model_validate(case.keys)
    assessment = assess(claim, PLANS, TODAY)
    summary = summary_of(assessment)
    events = list(happened(case, summary.claimed))
    files = [KeptFile(path, sha256, 90_000) for path, sha256 in case.papers.items()]
    for path, shows in case.pictures.items():
        sha256 = hashlib.sha256(repr(shows).encode()).hexdigest()
        files.append(KeptFile(path, sha256, 300_000, case.taken.get(path), looks(shows)))
    return AuditedClaim(
        claim,
        stand(events),
        summary,
        BY_ID.get(summary.plan),
        TERMS,
        files=tuple(files),
        course=filing_course(events),
        house=the_house(),
        **more_of(case),
    )


def more_of(case: Case) -> dict[str, Any]:
    return {"edits": tuple(Edit(*edit) for edit in case.edits)}


@cache
def the_house() -> House:
    people = tuple(Person(*each) for each in STAFF.items())
    prices = {run_on(number): price for number, price in PRICES.items()}
    return House(
        opening(OPEN),
        frozenset(HOLIDAYS),
        people,
        SHOP_PHONE,
        SHOP_MAIL,
        SHOP_ADDRESS,
        lambda _maker: PriceList(prices),
    )


def subject(rule_id: str) -> str:
    (rule,) = chosen_rules([rule_id])
    looked = getattr(rule, "look", None) or getattr(rule, "judge", None) or rule.counted
    return str(looked.__module__).rsplit(".", 1)[-1]


def about(finding: Irregularity, planting: Planted) -> bool:
    named = planting.claims.intersection(finding.claims)
    enough = len(named) >= max(1, int(len(planting.claims) * NAMED)) if len(planting.claims) > 2 else bool(named)
    return enough and subject(finding.rule) in FITTING[planting.kind]


def main() -> None:
    said = arguments(
        __doc__,
        Given("--claims", 900, "how many each shop has"),
        Given("--seeds", "1,2,3", "one for each shop"),
        Given("--unseen-names", False, "name the unseen plantings that are missed, too"),
        Given("--false", False, "tell every finding that is not true"),
    )
    tally: Counter[tuple[str, str, str]] = Counter()
    missed: Counter[str] = Counter()
    false: Counter[str] = Counter()
    true_by_rule: Counter[str] = Counter()
    for seed in map(int, said.seeds.split(",")):
        shop, seen, unseen = planted_shop(seed, said.claims)
        claims = [audited(case) for case in sorted(shop.cases, key=lambda case: case.number)]
        begun = time.process_time()
        found = audit(claims, Measures(TODAY), chosen_rules()).found
        print(f"seed {seed}: {len(claims)} claims, {len(found)} findings, {time.process_time() - begun:.2f} s")
        for which, plantings in (("seen", seen), ("unseen", unseen)):
            for planting in plantings:
                hit = any(about(finding, planting) for finding in found)
                tally[which, planting.kind, "found" if hit else "missed"] += 1
                if not hit and (which == "seen" or said.unseen_names):
                    missed[f"{which} {planting.kind}: {planting.name}"] += 1
        for finding in found:
            right = any(about(finding, planting) for planting in (*seen, *unseen))
            (true_by_rule if right else false)[finding.rule] += 1
            if said.false and not right:
                print("  FALSE", finding.rule, finding.claims[:6], finding.what, finding.evidence)
    report(tally, missed, true_by_rule, false)


def report(tally: Counter[Any], missed: Counter[str], true: Counter[str], false: Counter[str]) -> None:
    print(f"{'kind':12} {'seen':>16} {'unseen':>16}")
    for kind in (*FITTING, "all"):
        cells = []
        for which in ("seen", "unseen"):
            of_kind = [(state, n) for (w, k, state), n in tally.items() if w == which and kind in (k, "all")]
            found, every = sum(n for state, n in of_kind if state == "found"), sum(n for _, n in of_kind)
            cells.append(f"{found:3} of {every:3} {100 * found / max(1, every):4.0f} %")
        print(f"{kind:12} {cells[0]:>16} {cells[1]:>16}")
    right, wrong = sum(true.values()), sum(false.values())
    print(f"precision {right} of {right + wrong}: {100 * right / max(1, right + wrong):.1f} %")
    for rule in sorted({*true, *false}):
        print(f"  {rule:28} true {true[rule]:4} false {false[rule]:4}")
    for name, times in sorted(missed.items()):
        print(f"  missed {times} x {name}")


if __name__ == "__main__":
    main()
