"""A claim folder: claim.toml beside photos and papers, read into a claim."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path, PurePosixPath
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.file_names import is_device
from claimpack.core.facts.fields import inside_folder
from claimpack.core.facts.pictures import Paper
from claimpack.core.values.words import one_line
from claimpack.errors import BadInput, NotFound
from claimpack.folder.toml_files import read_record

CLAIM_FILE = "claim.toml"


class ClaimFolder(NamedTuple):
    """A claim and the folder its photos and papers lie in; unlisted are pictures the claim does not name."""

    path: Path
    claim: Claim
    unlisted: tuple[str, ...]

    def file(self, name: str) -> Path:
        """Where a file of the claim lies."""
        return self.path / name


def read_claim_folder(path: Path) -> ClaimFolder:
    """The claim of a folder; papers not named one by one are all the files of its papers folder.

    Args:
        path: the folder, or the claim.toml in it.

    Raises:
        NotFound: there is no such folder, or no claim.toml in it.
        BadInput: the claim has problems; every one is named.
    """
    folder = path.parent if path.name == CLAIM_FILE and path.is_file() else path
    if not folder.exists():
        raise NotFound(
            f"{path}: there is no such claim folder", do="Check the path, or make one: claimpack start FOLDER"
        )
    if not folder.is_dir():
        raise BadInput(
            f"{path} is a file, not a claim folder",
            f"A claim folder holds {CLAIM_FILE}, photos and papers.",
            "Give the folder.",
        )
    if not (folder / CLAIM_FILE).exists():
        raise NotFound(
            f"{folder}: there is no {CLAIM_FILE} in it",
            "That file says which unit and which failure the claim is about.",
            f"Make one: claimpack start {folder} --blank",
        )
    claim = read_record(Claim, folder / CLAIM_FILE)
    if not claim.papers:
        claim = claim.model_copy(update={"papers": tuple(Paper(file=file) for file in _listed(folder, "papers"))})
    named = {photo.file for photo in claim.photos}
    return ClaimFolder(folder, claim, tuple(name for name in _listed(folder, "photos") if name not in named))


def _listed(folder: Path, kind: str) -> tuple[str, ...]:
    place = folder / kind
    if not place.is_dir():
        return ()
    found = sorted(file for file in place.iterdir() if file.is_file() and not file.name.startswith("."))
    return tuple(sorted(_each_once(found, folder)))


def _each_once(files: Iterable[Path], folder: Path) -> Iterator[str]:
    """The files as a claim writes them.

    Raises:
        BadInput: two of them come out alike.
    """
    written: dict[str, Path] = {}
    for file in files:
        name = _as_written(file, folder)
        if name in written:
            raise BadInput(
                f"{folder}: {written[name].name!r} and {file.name!r} are one name, {Path(name).name!r}, to a claim",
                "Blanks side by side count as one, and an accent counts as part of its letter; one would be lost.",
                "Give one of them another name.",
            )
        written[name] = file
    yield from written


def _as_written(file: Path, folder: Path) -> str:
    """A file's path inside its folder as a claim writes it: accents composed, single blanks.

    Raises:
        BadInput: its name holds what no text can.
    """
    name = file.relative_to(folder).as_posix()
    try:
        return str(one_line(name))
    except ValueError as error:
        raise BadInput(
            f"{folder}: the name of the file {name!r} {error}",
            "A packet prints the names of its files.",
            "Give the file another name.",
        ) from None


def claim_folders_in(path: Path) -> list[Path]:
    """The claim folders a path names: itself, or those directly inside it, by name.

    Raises:
        NotFound: there is no such folder, or no claim folder in it.
    """
    if (path / CLAIM_FILE).is_file() or path.name == CLAIM_FILE:
        return [path.parent if path.name == CLAIM_FILE else path]
    if path.is_file():
        raise BadInput(
            f"{path} is a file, and claims come in folders",
            f"A claim folder holds {CLAIM_FILE}, photos and papers.",
            "Give the folders; or the archive of a whole book alone.",
        )
    if not path.is_dir():
        raise NotFound(f"{path}: there is no such folder", do="Check the name, and where you stand.")
    found = sorted(folder for folder in path.iterdir() if (folder / CLAIM_FILE).is_file())
    if not found:
        raise NotFound(
            f"{path}: there is no {CLAIM_FILE} in it, nor in a folder inside it",
            f"A claim folder holds {CLAIM_FILE}, photos and papers.",
            "Give the claim folder, or the folder the claim folders lie in.",
        )
    return found


def inside(name: str, source: str) -> str:
    """A file's path inside a claim folder.

    Args:
        name: the path.
        source: what names it, for the message.

    Raises:
        BadInput: it leaves the folder, cannot be written with forward slashes, or is a device on Windows.
    """
    if any(is_device(part) for part in PurePosixPath(name).parts):
        raise BadInput(
            f"{source}: {name} is the name of a device on Windows, not of a file",
            "There it could be neither read nor written.",
            "Give the file another name.",
        )
    try:
        return inside_folder(name)
    except ValueError as error:
        raise BadInput(
            f"{source}: {error}", "A claim is complete in its own folder.", "Give the file another name."
        ) from None


def every_file(folder: ClaimFolder) -> tuple[str, ...]:
    """Every file that belongs to a claim: those it names, and what lies beside them, by path."""
    claim = folder.claim
    named = {*claim.paper_files(), *(photo.file for photo in claim.photos)}
    found = (
        file
        for kind in ("photos", "papers", "coverage", "terms")
        for file in sorted((folder.path / kind).rglob("*"))
        if file.is_file() and not any(part.startswith(".") for part in file.relative_to(folder.path).parts)
    )
    return tuple(sorted({*named, *_each_once(found, folder.path)}))
