"""Events of a claim that was accepted in part, and paid."""

from new_events import (
    FILED,
    LATER,
    OPENED,
    accepted_in_part,
    paid,
)

IN_PART = [OPENED, FILED, accepted_in_part("100.00")]
PAID_IN_PART = [*IN_PART, paid("100.00", LATER)]
