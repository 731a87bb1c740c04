"""Options that any command takes, before or after it: which shop or all, how much is said, whether it is paged."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from claimpack.commands.desk.world import World
from claimpack.errors import BadInput, NotFound

_SHOP = "--shop"


class TypedEverywhere(NamedTuple):
    """A command line without the options that any command takes, and what they say."""

    arguments: list[str]
    debug: bool = False
    quiet: bool = False
    pages: bool = True
    shop: str | None = None
    all_shops: bool = False

    @property
    def as_json(self) -> bool:
        """Whether the answer is wanted as a JSON document, and so the error too."""
        return "--json" in _before_dashes(self.arguments)


def taken_out(arguments: Sequence[str]) -> TypedEverywhere:
    """The command line, with the options that any command takes taken out of it; what follows `--` is left alone."""
    words, kept = _before_dashes(arguments), list[str]()
    found: dict[str, bool | str] = {}
    place = 0
    while place < len(words):
        word = words[place]
        if word in _FLAGS:
            name, said = _FLAGS[word]
            found[name] = said
        elif word.startswith(f"{_SHOP}="):
            found["shop"] = word.removeprefix(f"{_SHOP}=")
        elif word == _SHOP:
            place += 1
            found["shop"] = words[place] if place < len(words) else ""
        else:
            kept.append(word)
        place += 1
    return TypedEverywhere([*kept, *arguments[len(words) :]], **found)  # type: ignore[arg-type]


_FLAGS = {
    "--debug": ("debug", True),
    "--quiet": ("quiet", True),
    "--no-pager": ("pages", False),
    "--all-shops": ("all_shops", True),
}


def _before_dashes(arguments: Sequence[str]) -> list[str]:
    return list(arguments[: arguments.index("--")] if "--" in arguments else arguments)


def in_world(world: World, typed: TypedEverywhere) -> World:
    """The world as those options want it.

    Raises:
        BadInput: no folder follows --shop.
        NotFound: the folder is no shop's.
    """
    if typed.all_shops:
        world = world.of_all_shops()
    if typed.shop is None:
        return world.but(quiet=typed.quiet, pages=typed.pages) if typed.quiet or not typed.pages else world
    if not typed.shop:
        raise BadInput("--shop: no folder follows it", do="As in: claimpack pending --shop quarry-road")
    folder = world.path(typed.shop)
    if not (folder / "shop.toml").is_file():
        raise NotFound(
            f"--shop: {typed.shop} is no shop's folder",
            "A shop's folder holds shop.toml.",
            "Correct the path, or make one: claimpack shop init DIR",
        )
    environ = {**world.environ, "CLAIMPACK_SHOP": str(folder)}
    return world.but(environ=environ, quiet=typed.quiet, pages=typed.pages)
