"""The audit: every rule that claims are gone through by, and one pass over them all."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from functools import partial
from itertools import chain
from typing import Literal, NamedTuple

from claimpack.core.auditing.audited import AuditedClaim, Irregularity, Measures
from claimpack.core.auditing.report.same_fact import same_fact, told_once
from claimpack.core.auditing.report.traces import KeptTraces, Traces
from claimpack.core.auditing.report.wants import NotAsked, Wanting
from claimpack.core.auditing.rule import AcrossRule, AuditRule, NearRule, NotCompared, OneClaimRule, PatternRule
from claimpack.core.auditing.rules.alike_pictures import ALIKE_PICTURE_RULES
from claimpack.core.auditing.rules.facts import FACT_RULES
from claimpack.core.auditing.rules.filing import FILING_RULES
from claimpack.core.auditing.rules.held_parts import HELD_PART_RULES
from claimpack.core.auditing.rules.identity import IDENTITY_RULES
from claimpack.core.auditing.rules.labour import LABOUR_RULES
from claimpack.core.auditing.rules.labour_times import LABOUR_TIME_RULES
from claimpack.core.auditing.rules.money import MONEY_RULES
from claimpack.core.auditing.rules.money_lines import MONEY_LINE_RULES
from claimpack.core.auditing.rules.patterns import PATTERN_RULES, Pattern
from claimpack.core.auditing.rules.people import PEOPLE_RULES
from claimpack.core.auditing.rules.pictures_and_papers import PAPER_AND_DAY_RULES, SAME_PICTURE_RULES
from claimpack.core.auditing.rules.repeats import REPEAT_RULES
from claimpack.core.judging.assessment import NO, NOT_YET, YES
from claimpack.core.values.words import did_you_mean, is_said
from claimpack.errors import BadInput

AUDIT_RULES: tuple[AuditRule, ...] = (
    *REPEAT_RULES,
    *SAME_PICTURE_RULES,
    *ALIKE_PICTURE_RULES,
    *PAPER_AND_DAY_RULES,
    *LABOUR_RULES,
    *MONEY_RULES,
    *HELD_PART_RULES,
    *FILING_RULES,
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
    for ids, where in ((named, ""), (switched_off, "shop.toml, key audit_off: ")):
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
            f"{where}there is no audit rule {name!r}",
            did_you_mean(name, known),
            "See them all: claimpack audit --rules",
        )


class AuditReport(NamedTuple):
    """What an audit found: how many claims it is about, everything irregular in them, and what it could not look at.

    `not_compared` was compared in part, `not_asked` not asked of every claim; `rules` are the ids of those chosen.
    """

    claims: int
    found: tuple[Irregularity, ...]
    not_compared: tuple[NotCompared, ...] = ()
    not_asked: tuple[NotAsked, ...] = ()
    rules: tuple[str, ...] = ()

    def of(self, rules: Iterable[AuditRule]) -> AuditReport:
        """The same as far as it is about some of the rules; findings stay."""
        ids = tuple(rule.id for rule in rules)
        about = (each.of(ids) for each in self.not_asked)
        return self._replace(
            not_compared=tuple(each for each in self.not_compared if each.rule in ids),
            not_asked=tuple(each for each in about if each.rules or each.in_part),
            rules=ids,
        )

    @property
    def asked(self) -> tuple[str, ...]:
        """The rules that were asked of at least one claim."""
        unasked = Counter[str]()
        for each in self.not_asked:
            unasked.update(dict.fromkeys(each.rules, each.claims))
        return tuple(rule for rule in self.rules if unasked[rule] < self.claims)

    @property
    def looked_at(self) -> Literal["all", "in part", "nothing"]:
        """How much was looked at; a rule that goes by a setting the shop has not told is none of that shop's."""
        if not self.asked:
            return "nothing"
        out_of_reach = [each for each in self.not_asked if not each.is_setting]
        return "in part" if self.not_compared or out_of_reach else "all"

    @property
    def exit_code(self) -> int:
        """3 where something was found, 0 where nothing was and all was looked at; 4 where nobody can say yet."""
        if self.found:
            return NO
        return YES if self.looked_at == "all" else NOT_YET


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
    wanting = Wanting([rule.id for rule in rules])
    for audited in claims:
        # every claim leaves its traces: one that the answer is not about may be what another is compared with
        if about(audited):
            count += 1
            wanting.add(audited)
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
    said = [each for near_rule, heap in near for each in near_rule.judge(heap, measures, kept)]
    alike = [each for each in said if isinstance(each, Irregularity)]
    not_compared = tuple(each for each in said if isinstance(each, NotCompared))
    unusual = (each for pattern in patterns.values() for each in pattern.found(measures))
    # told where at least one of the claims is among those asked about
    # a finding of two claims is told even if one of them is only compared with
    found += [each for each in chain(judged, alike, unusual) if not others.issuperset(each.claims)]
    told = tuple(told_once(_in_order(found, rules)))
    return AuditReport(count, told, not_compared, wanting.told()).of(rules)


def _in_order(found: Iterable[Irregularity], rules: Sequence[AuditRule]) -> list[Irregularity]:
    """Each thing once, the serious first."""
    place = {rule.id: index for index, rule in enumerate(rules)}

    def order(each: Irregularity) -> tuple[object, ...]:
        return each.weight != "serious", place[each.rule], each.claims, each.what, sorted(each.evidence.items())

    # two traces of one pair of claims may tell the same; reversed, so that the first of them in order stays,
    # whichever was come upon first: traces on disk come in an order that is another each time
    once = {(each.rule, each.claims, each.what): each for each in sorted(found, key=order, reverse=True)}
    return sorted(once.values(), key=order)
