"""The audit: every rule that claims are gone through by, and one pass over them all."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import partial
from itertools import chain
from typing import NamedTuple

from claimpack.core.auditing.audited import AuditedClaim, Irregularity, Measures
from claimpack.core.auditing.report.same_fact import same_fact, told_once
from claimpack.core.auditing.report.traces import KeptTraces, Traces
from claimpack.core.auditing.rule import OURS, PRACTICE, AcrossRule, AuditRule, NearRule, OneClaimRule, PatternRule
from claimpack.core.auditing.rules import filing, labour, money, repeats
from claimpack.core.auditing.rules import held_parts as held
from claimpack.core.auditing.rules import pictures_and_papers as pictures
from claimpack.core.auditing.rules import pictures_and_papers as proofs
from claimpack.core.auditing.rules.alike_pictures import alike_pictures
from claimpack.core.auditing.rules.facts import FACT_RULES
from claimpack.core.auditing.rules.identity import IDENTITY_RULES
from claimpack.core.auditing.rules.labour_times import LABOUR_TIME_RULES
from claimpack.core.auditing.rules.money_lines import MONEY_LINE_RULES
from claimpack.core.auditing.rules.patterns import PATTERN_RULES, Pattern
from claimpack.core.auditing.rules.people import PEOPLE_RULES
from claimpack.core.judging.assessment import NO, YES
from claimpack.core.values.words import did_you_mean, is_said
from claimpack.errors import BadInput

_FIRST_RULES: tuple[AuditRule, ...] = (
    AcrossRule(
        "unit-claimed-twice",
        "One component of one unit is claimed twice, at overlapping times.",
        PRACTICE,
        repeats.components_of_units,
        repeats.unit_claimed_twice,
    ),
    AcrossRule(
        "part-claimed-twice",
        "One part number is claimed twice on one unit, at overlapping times.",
        PRACTICE,
        repeats.parts_of_units,
        repeats.part_claimed_twice,
    ),
    OneClaimRule(
        "part-line-twice", "One part number stands on two lines of a claim.", PRACTICE, repeats.part_line_twice
    ),
    AcrossRule(
        "part-serial-twice",
        "One part, known by its serial number, is in two claims.",
        PRACTICE,
        repeats.serial_parts,
        repeats.part_serial_twice,
    ),
    AcrossRule(
        "purchase-dates-differ",
        "Claims give one unit different purchase dates, or have it fail before it was bought.",
        PRACTICE,
        repeats.purchases,
        repeats.purchase_dates_differ,
    ),
    AcrossRule(
        "same-picture",
        "Two claims show the same picture.",
        PRACTICE,
        pictures.pictures_by_content,
        pictures.same_picture,
    ),
    NearRule(
        "alike-pictures",
        "Two claims show pictures that look alike.",
        PRACTICE,
        pictures.pictures_with_looks,
        alike_pictures,
    ),
    AcrossRule(
        "same-paper",
        "One paper proves the purchase of different units.",
        PRACTICE,
        proofs.proofs_by_content,
        proofs.same_paper,
    ),
    OneClaimRule(
        "picture-before-unit",
        "A picture was taken before the unit was built or bought.",
        OURS,
        pictures.picture_before_unit,
    ),
    OneClaimRule(
        "picture-long-before",
        "A picture was taken long before the unit came in.",
        OURS,
        pictures.picture_long_before,
    ),
    OneClaimRule(
        "picture-before-failure",
        "A picture of the failed part was taken before it failed.",
        OURS,
        pictures.picture_before_failure,
    ),
    OneClaimRule(
        "picture-after-filing",
        "A picture was taken after the claim was filed.",
        OURS,
        pictures.picture_after_filing,
    ),
    AcrossRule(
        "labour-at-one-time",
        "A technician works on two things at one time.",
        PRACTICE,
        labour.shifts,
        labour.labour_at_one_time,
    ),
    AcrossRule(
        "day-too-long",
        "A technician's hours are more than a day holds.",
        PRACTICE,
        labour.hours_by_day,
        labour.day_too_long,
    ),
    OneClaimRule(
        "labour-beyond-schedule",
        "A clock ran far beyond the hours that the time schedule gives.",
        PRACTICE,
        labour.labour_beyond_schedule,
    ),
    OneClaimRule(
        "labour-hardly-worked",
        "The time schedule's hours are claimed, and next to no time is written down.",
        OURS,
        labour.labour_hardly_worked,
    ),
    OneClaimRule("over-approval", "More is claimed than the maker approved.", PRACTICE, money.over_approval),
    AcrossRule(
        "below-floor",
        "A plan pays less than the law's floor.",
        "the section the payment terms cite",
        money.shortfalls,
        money.below_floor,
    ),
    OneClaimRule(
        "held-part-missing", "No failed part is held where the plan asks for one.", PRACTICE, held.held_part_missing
    ),
    OneClaimRule("scrapped-early", "A held part was scrapped early, or without a rule.", PRACTICE, held.scrapped_early),
    OneClaimRule(
        "released-unheard",
        "A held part was let go in the maker's name before the maker was heard of.",
        OURS,
        held.released_unheard,
    ),
    OneClaimRule(
        "not-sent-back",
        "A part that the maker called back was not sent in time, or let go.",
        PRACTICE,
        held.not_sent_back,
    ),
    OneClaimRule(
        "filed-over-block",
        "A claim was filed although it was not covered, or something else spoke against it.",
        OURS,
        filing.filed_over_block,
    ),
    OneClaimRule("packet-changed", "The packet kept at filing was changed or is gone.", OURS, filing.packet_changed),
    OneClaimRule(
        "corrected-after-filing",
        "A claim was corrected after filing and not resubmitted.",
        OURS,
        filing.corrected_after_filing,
    ),
    OneClaimRule(
        "evidence-missing",
        "A filed claim lacks evidence the plan asks for, or a claim names a file that is not kept.",
        PRACTICE,
        filing.evidence_missing,
    ),
    OneClaimRule("filed-late", "A claim was filed after the last day for it.", PRACTICE, filing.filed_late),
    OneClaimRule(
        "repaired-before-approval",
        "A unit was repaired before the maker approved.",
        PRACTICE,
        filing.repaired_before_approval,
    ),
    OneClaimRule(
        "approval-ran-out",
        "A unit was repaired after the maker's approval had expired.",
        PRACTICE,
        filing.approval_ran_out,
    ),
)

AUDIT_RULES: tuple[AuditRule, ...] = (
    *_FIRST_RULES,
    *IDENTITY_RULES,
    *LABOUR_TIME_RULES,
    *MONEY_LINE_RULES,
    *FACT_RULES,
    *PEOPLE_RULES,
    *PATTERN_RULES,
)
"""Every rule, in the order it is told."""


def chosen_rules(wanted: Iterable[str] = (), off: Iterable[str] = ()) -> tuple[AuditRule, ...]:
    """The rules to go by: those wanted, also when the shop has them off; with none wanted, all that are not off.

    Raises:
        BadInput: an id is no rule's; the nearest is suggested.
    """
    named, switched_off = list(wanted), list(off)
    for ids, where in ((named, "--rule"), (switched_off, "shop.toml, key audit_off")):
        for each in ids:
            # a misspelt id would switch nothing off and say nothing
            _refuse_unknown(each, where)
    # a rule asked for by name is run although the shop has it off: whoever names it wants to see
    if named:
        return tuple(rule for rule in AUDIT_RULES if is_said(rule.id, named))
    return tuple(rule for rule in AUDIT_RULES if not is_said(rule.id, switched_off))


def looked_by(chosen: Sequence[AuditRule], off: Iterable[str] = ()) -> tuple[AuditRule, ...]:
    """The rules to look by for what some found: what several tell is one finding, and is settled as one.

    Args:
        chosen: the rules asked about.
        off: those the shop has off; one that is asked about all the same is looked by alone, as when it is settled.
    """
    on = chosen_rules(off=off)
    ids = same_fact(rule.id for rule in chosen if rule in on)
    return tuple(rule for rule in AUDIT_RULES if rule in chosen or (rule.id in ids and rule in on))


def _refuse_unknown(name: str, where: str) -> None:
    known = [rule.id for rule in AUDIT_RULES]
    if not is_said(name, known):
        raise BadInput(
            f"{where}: there is no audit rule {name!r}",
            did_you_mean(name, known),
            "See them all: claimpack audit --rules",
        )


class AuditReport(NamedTuple):
    """What an audit found: how many claims it is about, and everything irregular in them."""

    claims: int
    found: tuple[Irregularity, ...]

    @property
    def exit_code(self) -> int:
        """0 where nothing was found, 3 where something was."""
        return NO if self.found else YES


def _everything(_audited: AuditedClaim) -> bool:
    return True


def audit(
    claims: Iterable[AuditedClaim],
    measures: Measures,
    rules: Sequence[AuditRule] = AUDIT_RULES,
    about: Callable[[AuditedClaim], bool] = _everything,
    traces: Traces | None = None,
) -> AuditReport:
    """Everything irregular in claims gone through once: the serious first, then in the order of the rules.

    Claims are not kept: a rule that compares them keeps the few facts it needs under a key, so that the time grows
    with the number of claims and no faster than sorting them.

    Args:
        claims: every claim to compare with.
        measures: what is measured with.
        rules: the rules to go by.
        about: which claims the answer is about; others are only compared with.
        traces: where traces are kept until all are there; None for in memory.
    """
    found: list[Irregularity] = []
    kept = KeptTraces() if traces is None else traces
    others: set[str] = set()
    count = 0
    across = [(place, rule) for place, rule in enumerate(rules) if isinstance(rule, AcrossRule)]
    near = [(rule, kept.heap()) for rule in rules if isinstance(rule, NearRule)]
    patterns = {
        place: Pattern(rule, partial(kept.put, place))
        for place, rule in enumerate(rules)
        if isinstance(rule, PatternRule)
    }
    alone = [rule for rule in rules if isinstance(rule, OneClaimRule)]
    for audited in claims:
        # every claim leaves its traces: one that the answer is not about may be what another is compared with
        if about(audited):
            count += 1
            found += [irregularity for rule in alone for irregularity in rule.look(audited, measures)]
        else:
            others.add(audited.number)
        for place, rule in across:
            for key, trace in rule.traces(audited):
                kept.put(place, key, trace)
        for near_rule, heap in near:
            for trace in near_rule.traces(audited):
                heap.append(trace)
        for pattern in patterns.values():
            pattern.add(audited)
    for pattern in patterns.values():
        pattern.put_down()
    judge = {place: rule.judge for place, rule in across} | {place: each.weigh for place, each in patterns.items()}
    judged = (each for place, group in kept.groups() for each in judge[place](group, measures))
    alike = (each for near_rule, heap in near for each in near_rule.judge(heap, measures, kept))
    unusual = (each for pattern in patterns.values() for each in pattern.found(measures))
    # told where at least one of the claims is among those asked about
    # a finding of two claims is told even if one of them is only compared with
    found += [each for each in chain(judged, alike, unusual) if not others.issuperset(each.claims)]
    return AuditReport(count, tuple(told_once(_in_order(found, rules))))


def _in_order(found: Iterable[Irregularity], rules: Sequence[AuditRule]) -> list[Irregularity]:
    """Each thing once, the serious first."""
    place = {rule.id: index for index, rule in enumerate(rules)}
    # two traces of one pair of claims may tell the same; reversed, so that the first of them stays
    # which claim came first must not change what is told
    once = {(each.rule, each.claims, each.what): each for each in reversed(list(found))}
    return sorted(once.values(), key=lambda each: (each.weight != "serious", place[each.rule], each.claims, each.what))
