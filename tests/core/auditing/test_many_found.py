from claimpack.core.auditing.audited import Irregularity


def test_a_finding_that_holds_others_is_read_and_written_as_the_library_does_when_there_are_many():
    part = Irregularity(rule="below-floor", claims=("26-0001",), what="Low.", weight="look")
    whole = part.model_copy(update={"parts": (part,)})
    read = Irregularity.model_validate_json(whole.model_dump_json())
    assert (read, [type(each) for each in read.parts]) == (whole, [Irregularity])


def test_more_findings_than_are_read_one_by_one_are_all_there():
    found = [Irregularity(rule="below-floor", claims=("26-0001",), what="Low.", weight="look") for _ in range(300)]
    assert found[0] == found[-1]
