"""`claimpack plan keys`: every key that a plan may have, told with an example."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Json
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.core.drafting.key_list import Key


def keys(
    context: Context,
    words: Annotated[
        list[str] | None, Argument(metavar="[WORD]…", help="Only keys that all of these are said of.")
    ] = None,
    of: Annotated[
        str, Option("--of", metavar="KIND", help="plan, statute, terms, claim, shop, layout or stock.")
    ] = "plan",
    json: Json = False,
) -> int:
    """Tell every key of a plan: what it means, an example, what counts without it."""
    from claimpack.commands.desk.say import Say
    from claimpack.core.drafting.key_list import filtered, key_list
    from claimpack.folder.file_kinds import record_of

    say = Say(context.obj)
    found, instead = filtered(key_list(record_of(of)), words or ())
    if json:
        say.document({"kind": of, "keys": [_document(key) for key in found]})
    else:
        _tell(say, found)
    if instead:
        say.note(f"No key says {' '.join(words or ())!r}; these have to do with: {instead}.")
    if not found:
        say.note(f"No key of a {of} has to do with that. See them all: claimpack plan keys --of {of}")
    return 0 if found else 3


def _document(key: Key) -> dict[str, object]:
    return {
        "key": key.path,
        "table": key.table,
        "means": key.means,
        "example": key.example,
        "choices": list(key.choices),
        "needed": key.needed,
        "absent": key.absent or None,
    }


def _tell(say: Say, found: tuple[Key, ...]) -> None:
    table = ""
    for key in found:
        if key.table != table:
            table = key.table
            say.heading(table)
        line = key.example if key.example.startswith("[[") or not key.example else f"{key.name} = {key.example}"
        say.answer(f"  {say.styled(line or key.name, 'strong')}")
        say.item(" ", told_of(key))


def told_of(key: Key) -> str:
    """What a key means, which words it takes, and what counts without it, as one paragraph."""
    told = [f"{key.means[:1].upper()}{key.means[1:]}."]
    if key.choices:
        told.append(f"One of: {', '.join(key.choices)}.")
    if key.needed:
        told.append("Needed.")
    elif key.absent:
        told.append(f"Without it: {key.absent.strip(chr(34))}.")
    return " ".join(told)
