import pytest

from claimpack.commands.bench.brought import Refusing, all_looked_at
from claimpack.errors import BadInput

REFUSING = Refusing("pictures", lambda good: f"Go on with {' and '.join(good)}.")


def look(path, _file):
    if path.name.startswith("bad"):
        raise BadInput(f"{path.name} is no picture at all", "It is text.", "Take another.")
    return path.name


def looked_at(folder, *names):
    moved = []
    try:
        return all_looked_at([(name, folder / name) for name in names], look, lambda: moved.append(1), REFUSING)
    finally:
        if len(moved) != len(names):
            pytest.fail("every file moves the progress by one")


def test_every_file_is_looked_at_in_order(tmp_path):
    assert looked_at(tmp_path, "b", "a") == ["b", "a"]


def test_one_alone_is_refused_in_its_own_words(tmp_path):
    with pytest.raises(BadInput) as caught:
        looked_at(tmp_path, "bad")
    assert (caught.value.what, caught.value.do) == ("bad is no picture at all", "Take another.")


def test_one_among_others_keeps_all_out_and_says_how_to_go_on(tmp_path):
    with pytest.raises(BadInput) as caught:
        looked_at(tmp_path, "a", "bad-1", "bad-2")
    assert caught.value.do == "None of the 3 pictures was added, so that none is overlooked. Go on with a."
    assert (caught.value.what, caught.value.problems) == (
        "bad-1 is no picture at all",
        ("bad-2 is no picture at all",),
    )
