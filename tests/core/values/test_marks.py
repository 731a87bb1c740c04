import pytest

from claimpack.core.facts.record import PlainRecord
from claimpack.core.values.marks import model_validator


class Span(PlainRecord):
    """Two numbers in their order."""

    low: int
    high: int

    @model_validator(mode="after")
    def _in_order(self):
        if self.high < self.low:
            raise ValueError(f"{self.high} is below {self.low}")
        return self


def test_a_method_that_is_marked_checks_the_record_that_was_read():
    with pytest.raises(ValueError, match="1 is below 2"):
        Span.read_plainly({"low": 2, "high": 1})


def test_a_record_is_not_checked_before_its_fields_are_read():
    with pytest.raises(TypeError, match="not before"):
        model_validator(mode="before")
