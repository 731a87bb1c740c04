import pytest

from claimpack.commands.auditing.spilled import SpilledTraces, traces_of
from claimpack.core.auditing.report.traces import KeptTraces


def filled(traces):
    for place in range(3_000):
        traces.put(place % 3, ("key", place % 700), place)
    return sorted((rule, tuple(group)) for rule, group in traces.groups())


def test_a_heap_on_disk_gives_back_what_was_put_there_by_its_place_and_in_order():
    with SpilledTraces() as traces:
        heap = traces.heap()
        for place in range(300):
            heap.append(("trace", place))
        assert (len(heap), heap[7], list(heap)[-1]) == (300, ("trace", 7), ("trace", 299))


def test_numbers_on_disk_come_back_in_the_order_in_which_they_came():
    with SpilledTraces() as traces:
        numbers, many = traces.numbers(), [*range(9_000), 2**64 - 1]
        for number in many:
            numbers.extend([number])
        assert list(numbers) == many


def test_traces_on_disk_come_back_in_the_groups_they_would_form_in_memory():
    with SpilledTraces() as traces:
        assert filled(traces) == filled(KeptTraces())


@pytest.mark.parametrize(("claims", "kind"), [(5_000, KeptTraces), (5_001, SpilledTraces), (100_000, SpilledTraces)])
def test_of_more_than_five_thousand_claims_what_is_compared_is_kept_on_disk(claims, kind):
    with traces_of(claims) as traces:
        assert (type(traces), filled(traces)) == (kind, filled(KeptTraces()))
