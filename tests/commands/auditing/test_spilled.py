from claimpack.commands.auditing.spilled import SpilledTraces
from claimpack.core.auditing.report.traces import KeptTraces


def filled(traces):
    for place in range(3_000):
        traces.put(place % 3, ("key", place % 700), place)
    return sorted((rule, tuple(group)) for rule, group in traces.groups())


def test_traces_on_disk_come_back_in_the_groups_they_would_form_in_memory():
    with SpilledTraces() as traces:
        assert filled(traces) == filled(KeptTraces())
