import datetime as dt

import pytest

from claimpack.core.reporting.backing_up import Backup, backup_age, backup_remark

LAST = Backup(dt.datetime(2026, 3, 8, 18, 30), "ann", "/mnt/usb", 12)  # noqa: DTZ001  # as the shop's clock shows it


@pytest.mark.parametrize(("day", "ago"), [(7, "today"), (8, "today"), (9, "1 day ago"), (10, "2 days ago")])
def test_a_backup_is_as_old_as_the_days_since(day, ago):
    assert backup_age(LAST, dt.date(2026, 3, day)) == f"2026-03-08 18:30, {ago}"


@pytest.mark.parametrize(("day", "length", "told"), [(15, 13, False), (16, 13, True), (16, 12, False)])
def test_a_backup_of_more_than_a_week_is_remarked_on_where_something_changed_since(day, length, told):
    assert bool(backup_remark(LAST, length, dt.date(2026, 3, day))) is told


@pytest.mark.parametrize(("length", "told"), [(0, False), (1, True)])
def test_a_book_with_claims_wants_a_backup(length, told):
    assert bool(backup_remark(None, length, dt.date(2026, 3, 8))) is told
