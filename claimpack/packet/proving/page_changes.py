"""What differs between the pages a packet was made with and the pages it has now, in words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from difflib import SequenceMatcher

from claimpack.packet.sealing.manifest import Manifest, PageRecord

_ENTRIES: Mapping[str, str] = {
    "/AA": "an action that runs by itself",
    "/AcroForm": "a form",
    "/Collection": "another face (a portfolio)",
    "/Dests": "the list of named places",
    "/Lang": "the document's language",
    "/Metadata": "the document's second set of properties (XMP)",
    "/Names/Dests": "the list of named places",
    "/Names/JavaScript": "a script",
    "/OCProperties": "the list of layers",
    "/MarkInfo": "whether it has a structure for screen readers",
    "/OpenAction": "an action that runs on opening",
    "/Outlines": "the list of bookmarks",
    "/OutputIntents": "the colours it is meant for",
    "/PageLabels": "the page numbers shown by readers",
    "/PageLayout": "how the pages are laid out",
    "/PageMode": "what is shown on opening",
    "/StructTreeRoot": "the structure for screen readers",
    "/ViewerPreferences": "how readers show it",
}
# they refer to pages by their place, so that one page added changes them all
_POINT_AT_PAGES = ("/Outlines", "/Dests", "/Names/Dests", "/PageLabels", "/StructTreeRoot")


def page_changes(made: Manifest, now: Sequence[PageRecord]) -> Iterator[str]:
    """Every page added, removed, moved or changed, and every picture replaced; page numbers are those of now.

    Args:
        made: the manifest of the packet as it was made.
        now: the pages as they are.
    """
    before = [page.sha256 for page in made.pages]
    after = [page.sha256 for page in now]
    # without its shortcut for long lists, which takes frequent pages for noise
    steps = SequenceMatcher(None, before, after, autojunk=False).get_opcodes()
    was_at = {
        before[index]: index for kind, start, end, _, _ in steps if kind != "equal" for index in range(start, end)
    }
    moved = {after[index] for kind, _, _, start, end in steps if kind != "equal" for index in range(start, end)} & set(
        was_at
    )
    for kind, start, end, start_now, end_now in steps:
        if kind == "equal":
            yield from _annotations_of_all(made.pages[start:end], now[start_now:end_now], start_now)
            continue
        places = range(start_now, end_now)
        yield from (
            f"page {at + 1} is out of place: it was page {was_at[after[at]] + 1}" for at in places if after[at] in moved
        )
        gone = [index for index in range(start, end) if before[index] not in moved]
        new = [index for index in places if after[index] not in moved]
        yield from _unlike(made, now, gone, new)


def _unlike(made: Manifest, now: Sequence[PageRecord], gone: Sequence[int], new: Sequence[int]) -> Iterator[str]:
    # in the same place: most likely one page, changed
    for old, index in zip(gone, new, strict=False):
        yield from _changed(made, made.pages[old], now[index], index + 1)
    for index in new[len(gone) :]:
        yield f"page {index + 1} was added"
    for old in gone[len(new) :]:
        yield f"page {old + 1} of the packet as it was made was removed"


def _changed(made: Manifest, was: PageRecord, page: PageRecord, number: int) -> Iterator[str]:
    files = {picture.sha256: picture.file for picture in made.pictures}
    lost = Counter(was.pictures) - Counter(page.pictures)
    added = Counter(page.pictures) - Counter(was.pictures)
    for place, picture in enumerate(lost.elements()):
        # one lost and one added on a page are told as one picture put in the place of another
        how = "replaced" if place < added.total() else "removed"
        yield f"the picture {files.get(picture) or '(without a name)'} on page {number} was {how}"
    if added.total() > lost.total():
        yield f"a picture was added to page {number}"
    if was.drawing != page.drawing:
        yield f"page {number} was changed"
    elif not lost and not added:
        yield f"the pictures on page {number} were put in each other's place or altered in how they are shown"
    yield from _annotations(was, page, number)


def _annotations_of_all(was: Sequence[PageRecord], now: Sequence[PageRecord], first: int) -> Iterator[str]:
    for number, (old, page) in enumerate(zip(was, now, strict=True), first + 1):
        yield from _annotations(old, page, number)


def _annotations(was: PageRecord, page: PageRecord, number: int) -> Iterator[str]:
    if page.annotation_count > was.annotation_count:
        yield f"an annotation was added to page {number}"
    elif page.annotation_count < was.annotation_count:
        yield f"an annotation was removed from page {number}"
    elif page.annotations != was.annotations:
        yield f"an annotation on page {number} was changed"


def entry_changes(made: Mapping[str, str], now: Mapping[str, str], *, pages_moved: bool) -> Iterator[str]:
    """Every form, script, list of bookmarks or other entry of the document that was added, removed or changed.

    Args:
        made: fingerprints of the entries as the packet was made, by key.
        now: the same as they are.
        pages_moved: whether pages were added, removed or moved; entries that count pages then differ for that alone.
    """
    for key in sorted(made.keys() | now.keys()):
        if made.get(key) == now.get(key) or (pages_moved and key in _POINT_AT_PAGES):
            continue
        what = _ENTRIES.get(key, f"the entry {key} of the document")
        yield f"{what} was {'added' if key not in made else 'removed' if key not in now else 'changed'}"
