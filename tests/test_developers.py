"""DEVELOPERS.md tells the truth about the tree."""

from module_map import module_map, written


def test_the_module_map_is_the_tree():
    assert written() == module_map(), "run: python tests/module_map.py"


def test_every_module_says_what_it_knows():
    assert "` \n" not in module_map() + "\n"
