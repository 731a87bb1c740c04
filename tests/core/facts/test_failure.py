from builders import a_claim


def test_the_component_falls_back_on_the_part_that_failed():
    assert a_claim(failure__component=None, failure__part={"name": "coil"}).component() == "coil"
