"""The two shops, each made once, with everything their commands answer."""

from __future__ import annotations

import pytest
from compared_shops import Answers, the_busy_shop, the_sample_shop


@pytest.fixture(scope="session")
def samples(tmp_path_factory) -> Answers:
    return Answers(the_sample_shop(tmp_path_factory.mktemp("samples")))


@pytest.fixture(scope="session")
def busy(tmp_path_factory) -> Answers:
    return Answers(the_busy_shop(tmp_path_factory.mktemp("busy")))


@pytest.fixture(params=["samples", "busy"])
def answers(request) -> Answers:
    return request.getfixturevalue(request.param)
