"""The page's words in the language of the phone: English sentences are the keys of their twins."""

from __future__ import annotations

import html
import json
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

PAGE = Path(__file__).parent / "page"
ENGLISH = "en"
LANGUAGES = (ENGLISH, "es")

_WEIGHT = re.compile(r"q=([01](?:\.\d{0,3})?)")


def language_for(accepted: str, usual: str) -> str:
    """The language of the page: of those a browser accepts the first that the page has, else the shop's, else English.

    Args:
        accepted: the browser's Accept-Language header, as in `es-MX,es;q=0.9,en;q=0.8`; empty for none.
        usual: the language of the shop's packets, a tag such as `es-US`; empty for none.

    Source: RFC 9110, 12.5.4.
    """
    wanted = []
    for each in accepted.split(","):
        tag, _, weight = each.replace(" ", "").partition(";")
        told = _WEIGHT.fullmatch(weight)
        # a weight of nought refuses a language
        if (told[1] if told else "1").strip("0."):
            wanted.append((told[1] if told else "1", tag))
    ranked = [tag for _, tag in sorted(wanted, key=lambda each: each[0].rstrip(".0"), reverse=True)]
    known = [tag.partition("-")[0].casefold() for tag in (*ranked, usual)]
    return next((language for language in known if language in LANGUAGES), ENGLISH)


@cache
def words_in(language: str) -> Mapping[str, str]:
    """The sentences of a language by the English ones; empty for English."""
    told: dict[str, str] = {} if language == ENGLISH else json.loads((PAGE / f"{language}.json").read_bytes())
    return told


def words_script(language: str) -> bytes:
    """The script that gives the page its words."""
    return f"const WORDS = {json.dumps(words_in(language))};\n".encode()


def page_in(language: str) -> bytes:
    """The page itself in a language."""
    words = words_in(language)
    page = (PAGE / "page.html").read_text(encoding="utf-8").replace('<html lang="en">', f'<html lang="{language}">')
    told = re.sub(r"(?<=>)[^<>\n]+(?=<)", lambda text: html.escape(words.get(text[0], text[0])), page)
    return told.encode()
