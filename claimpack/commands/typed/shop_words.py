"""The words of the shop that a shell completes, found without reading a record: a key is waiting."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, get_args

from claimpack.commands.typed.left_out import shop_folder
from claimpack.template_files import CAMPAIGNS, COVERAGE, FORMS, PACKET, TAG, TERMS, Places

if TYPE_CHECKING:
    from claimpack.commands.desk.world import World

_FILES = {
    "terms": TERMS,
    "stocks": TAG,
    "layouts": PACKET,
    "forms": FORMS,
    "campaigns": CAMPAIGNS,
    "plans": COVERAGE,
}
_KEYS = {
    "makers": re.compile(r'^maker\s*=\s*("[^"]*")', re.MULTILINE),
    "models": re.compile(r"^models\s*=\s*\[([^\]]*)", re.MULTILINE),
    "components": re.compile(r"^(?:covers|components)\s*=\s*\[([^\]]*)", re.MULTILINE),
    "uses": re.compile(r"^uses\s*=\s*\[([^\]]*)", re.MULTILINE),
    "shots": re.compile(r"^shots\s*=\s*\[([^\]]*)", re.MULTILINE),
}
"""Where plan files say it, one text or a list of them."""


class ShopWords:
    """The words of a shop, of one kind at a time. What cannot be read has none: a shell can tell nobody why."""

    def __init__(self, world: World) -> None:
        self._folder, self._all_shops = shop_folder(world), world.all_shops

    def __call__(self, kind: str, begun: str) -> Iterable[str]:
        """The words of a kind that may begin so, each once."""
        found = [*self._in_files(kind), *self._in_book(kind, begun)]
        return dict.fromkeys(word for word in found if word)

    def _in_files(self, kind: str) -> Iterable[str]:
        if kind == "states":
            from claimpack.core.events.states import State

            return get_args(State)
        if kind == "kinds":
            from claimpack.folder.file_kinds import ANSWER, FILE_KINDS

            return (*FILE_KINDS, ANSWER)
        if kind in _FILES:
            return sorted({path.stem for path in self._templates(_FILES[kind])})
        if kind not in _KEYS:
            return ()
        texts = [path.read_text("utf-8", "replace") for path in self._templates(COVERAGE)]
        values = ",".join(value for text in texts for value in _KEYS[kind].findall(text))
        # With a star in it, a word stands for many.
        return [word for word in re.findall(r'"([^"]*)"', values) if "*" not in word]

    def _templates(self, kind: str) -> Iterable[Path]:
        return [path for folder in Places(shop=self._folder).folders(kind) for path in folder.glob("*.toml")]

    def _in_book(self, kind: str, begun: str) -> Iterable[str]:
        from claimpack.book.completing import KINDS, words_beginning

        if self._folder is None or kind not in KINDS:
            return ()
        from claimpack.book.database.connections import database_errors
        from claimpack.book.database.engines import engine_for, exists, reading
        from claimpack.errors import ClaimpackError

        try:
            settings = tomllib.loads((self._folder / "shop.toml").read_text("utf-8"))
            named = str(settings.get("book", "book.sqlite"))
            place = named if "://" in named else str(self._folder / named)
            if not exists(place):
                return ()
            shop = "" if self._all_shops else str(settings.get("id", ""))
            with reading(engine_for(place, wait=0)) as connection:
                return words_beginning(connection, kind, begun, shop)
        except (ClaimpackError, OSError, ValueError):
            return ()
        except database_errors():
            return ()
