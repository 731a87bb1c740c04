"""DEVELOPERS.md tells the truth about the tree."""

from module_map import module_map


def test_every_module_says_what_it_knows():
    assert "` \n" not in module_map() + "\n"
