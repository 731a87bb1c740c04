from __future__ import annotations

import pytest
from hostile_archives import hostile
from running import claimpack
from shops_with_claims import a_copy

SMALL = (
    "an event less",
    "another amount filed",
    "a claim twice",
    "a claim that has no revision",
    "another likeness",
    "a document that is a number",
    "a line nested deep",
    "a kept file changed",
    "a kept file twice",
    "kept files packed",
    "a setting that leaves the folder",
    "a bomb in the contents",
    "cut off",
    "a byte changed within",
)


@pytest.fixture(scope="module")
def archives(filed_shop, tmp_path_factory):
    place = tmp_path_factory.mktemp("hostile")
    claimpack("shop", "backup", place / "good.zip", folder=a_copy(filed_shop, place))
    return dict(hostile((place / "good.zip").read_bytes()))


def left_in(place):
    return {path for path in place.rglob("*") if path.is_file() and not path.name.endswith(("-wal", "-shm"))}


@pytest.mark.parametrize("name", SMALL)
def test_a_hostile_archive_is_refused_and_leaves_nothing_behind(archives, tmp_path, name):
    claimpack("shop", "init", "empty", folder=tmp_path)
    (tmp_path / "hostile.zip").write_bytes(archives[name])
    before = left_in(tmp_path)
    imported = claimpack("import", "../hostile.zip", folder=tmp_path / "empty")
    restored = claimpack("shop", "restore", "hostile.zip", "again", folder=tmp_path)
    assert (imported.code, restored.code, left_in(tmp_path) - before) == (2, 2, set())
