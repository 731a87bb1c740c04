"""A store of objects over HTTP, by its S3 interface: what goes in and comes out, and what is told when it fails."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager, nullcontext, suppress
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple
from urllib.parse import urlsplit

from claimpack.core.values.typed.stores import StoreAddress
from claimpack.errors import BadInput, CannotWrite, ClaimpackError, NotFound, NotInstalled
from claimpack.installed import install_command

if TYPE_CHECKING:
    from obstore.store import ClientConfig, RetryConfig, S3Store

Progress = Callable[[str, int], AbstractContextManager[Callable[[], None]]]
"""Shows so many steps under a name, and gives what moves it by one."""

PART = 5 << 20
"""Bytes that go over the line at once: the least a store takes as a part of an upload (Amazon S3 API, UploadPart)."""

# A part takes two minutes on a line of 0.35 Mbit/s; a server that is silent for half a minute is lost.
_CLIENT: ClientConfig = {"connect_timeout": "10s", "read_timeout": "30s", "timeout": "120s"}
_RETRY: RetryConfig = {"max_retries": 3, "retry_timeout": dt.timedelta(seconds=60)}
_KEYS = ("AWS_ACCESS_KEY_ID", "AWS_SECRET_ACCESS_KEY")
# Where the key may come from on machines of a provider, whom the library asks itself.
_OTHER_KEYS = (
    "AWS_WEB_IDENTITY_TOKEN_FILE",
    "AWS_CONTAINER_CREDENTIALS_RELATIVE_URI",
    "AWS_CONTAINER_CREDENTIALS_FULL_URI",
)


class Held(NamedTuple):
    """An object that is there: its name below the prefix, its bytes, and when it came by the clock of the server."""

    name: str
    size: int
    since: dt.datetime


class ObjectStore:
    """The objects below a prefix of a bucket. Nothing is asked of the server before the first question."""

    def __init__(self, address: StoreAddress, environ: Mapping[str, str], progress: Progress) -> None:
        self.address, self._environ, self.progress = address, environ, progress
        self._has_bucket = False

    @cached_property
    def _store(self) -> S3Store:
        try:
            from obstore.store import S3Store
        except ImportError:
            raise NotInstalled(
                f"the vault is in {self.address}, and this machine lacks the library for it",
                do=f"Install it: {install_command('obstore')}",
            ) from None
        environ = self._environ
        _refuse_what_no_request_carries(environ)
        lacking = next((name for name in _KEYS if not environ.get(name)), "")
        if lacking and not any(environ.get(name) for name in _OTHER_KEYS):
            raise BadInput(
                f"the vault is in {self.address}, and {lacking} is not set",
                "The store asks who is there; keys are never read from shop.toml.",
                "Set AWS_ACCESS_KEY_ID, AWS_SECRET_ACCESS_KEY, AWS_REGION, and for a store of another house "
                "AWS_ENDPOINT_URL.",
            )
        endpoint = _endpoint(environ)
        region = environ.get("AWS_REGION") or environ.get("AWS_DEFAULT_REGION") or "us-east-1"
        given = {
            "access_key_id": environ.get("AWS_ACCESS_KEY_ID"),
            "secret_access_key": environ.get("AWS_SECRET_ACCESS_KEY"),
            "token": environ.get("AWS_SESSION_TOKEN"),
            "endpoint": endpoint,
        }
        with self._asking():
            return S3Store(
                self.address.bucket,
                prefix=self.address.prefix or None,
                config={name: value for name, value in given.items() if value},  # type: ignore[arg-type]
                region=region,
                client_options={**_CLIENT, "allow_http": endpoint.startswith("http://")},
                retry_config=_RETRY,
            )

    def held(self, name: str) -> Held | None:
        """The object of that name, or None.

        Raises:
            NotFound: the store cannot be asked, or there is no such bucket.
        """
        # First, here and below: it tells of a library that is not there, which the import would not.
        store = self._store
        import obstore

        try:
            with self._asking():
                found = obstore.head(store, name)
        except FileNotFoundError:
            self._must_have_bucket()
            return None
        return Held(name, found["size"], found["last_modified"])

    def put(self, name: str, content: bytes, *, anew: bool = False, shown: bool = False) -> None:
        """Put an object in, whole or not at all; a large one in parts.

        Args:
            name: its name below the prefix.
            content: what it holds.
            anew: whether one that is there is replaced; else it is left as it is.
            shown: whether the parts are shown as they go.

        Raises:
            CannotWrite: the store cannot be asked, or does not take it.
        """
        store = self._store
        import obstore
        from obstore.exceptions import AlreadyExistsError, GenericError

        with self._writing():
            if len(content) > PART:
                # A store takes no condition on what comes in parts; the name is that of the content, so that what
                # another writer put there meanwhile is replaced by the same.
                obstore.put(store, name, self._parts_of(content, shown), chunk_size=PART)
                return
            if not anew:
                # Not every store knows the condition; what it then says is told by the plain request below.
                with suppress(GenericError, NotImplementedError):
                    with suppress(AlreadyExistsError):
                        obstore.put(store, name, content, mode="create")
                    return
            obstore.put(store, name, content)

    def _parts_of(self, content: bytes, shown: bool) -> Iterator[bytes]:
        with self._bar("Sending", len(content), shown) as advance:
            for start in range(0, len(content), PART):
                yield content[start : start + PART]
                advance()

    def parts(self, name: str, *, shown: bool = False) -> Iterator[bytes] | None:
        """What an object holds, in parts that are asked for one by one; None where there is none.

        Raises:
            NotFound: the store cannot be asked; so may the parts.
        """
        there = self.held(name)
        return self._fetched(there, shown) if there else None

    def _fetched(self, there: Held, shown: bool) -> Iterator[bytes]:
        import obstore

        with self._bar("Fetching", there.size, shown) as advance:
            for start in range(0, there.size, PART):
                try:
                    with self._asking():
                        end = min(start + PART, there.size)
                        part = obstore.get_range(self._store, there.name, start=start, end=end)
                except FileNotFoundError:
                    said = f"{there.name} was taken out of the vault {self.address} while it was read"
                    raise NotFound(said, do="Try again.") from None
                yield bytes(part)
                advance()

    def _bar(self, label: str, size: int, shown: bool) -> AbstractContextManager[Callable[[], None]]:
        return self.progress(label, -(-size // PART)) if shown else nullcontext(lambda: None)

    def names(self) -> Iterator[Held]:
        """Every object below the prefix.

        Raises:
            NotFound: the store cannot be asked.
        """
        store = self._store
        import obstore

        with self._asking():
            for some in obstore.list(store):
                for each in some:
                    yield Held(each["path"], each["size"], each["last_modified"])

    def drop(self, name: str) -> None:
        """Take an object out; one that is not there is not missed.

        Raises:
            CannotWrite: the store cannot be asked, or does not let it go.
        """
        store = self._store
        import obstore

        with self._writing():
            obstore.delete(store, name)

    def _must_have_bucket(self) -> None:
        """Refuse a bucket that is not there: the server says of its objects, too, that they are gone."""
        import obstore

        if not self._has_bucket:
            with self._asking():
                next(iter(obstore.list(self._store, chunk_size=1)), None)
            self._has_bucket = True

    def _asking(self) -> AbstractContextManager[None]:
        return _told(NotFound, f"the vault {self.address} cannot be asked")

    @contextmanager
    def _writing(self) -> Iterator[None]:
        try:
            with _told(CannotWrite, f"the vault {self.address} cannot be written"):
                yield
        except FileNotFoundError:
            raise CannotWrite(f"there is no bucket {self.address.bucket}", "Nothing can be put there.", _DO) from None


@contextmanager
def _told(kind: type[ClaimpackError], what: str) -> Iterator[None]:
    """What the library raises, told in three lines; that an object is not there is let through."""
    from obstore.exceptions import BaseError

    try:
        yield
    except BaseError as error:
        raise kind(what, _why(str(error)), _DO) from error


_DO = "Check the network, the bucket, and what AWS_ENDPOINT_URL, AWS_REGION and the keys say; then try again."
_STATUS = re.compile(r"status code: (\d{3} [A-Za-z ]+)")
_CODE = re.compile(r"<Code>(\w+)</Code>")
_NO_CONNECTION = re.compile(r"InvalidCertificate\((\w+)|message: \"([^\"]{1,80})\"")
_HOST = re.compile(r"(?:[A-Za-z0-9._-]+|\[[0-9A-Fa-f:.]+\])(?::\d+)?")
_KIND = re.compile(r"kind: (Connect|Timeout)")


def _why(told: str) -> str:
    """What the server or the line said, in one short line, out of the library's many."""
    status, code, kind = _STATUS.search(told), _CODE.search(told), _KIND.search(told)
    if status:
        return f"It said {status[1].strip()}{f' ({code[1]})' if code else ''}."
    if kind and kind[1] == "Timeout":
        return "It did not answer in time."
    if kind:
        because = _NO_CONNECTION.search(told)
        return f"No connection could be made{f': {because[1] or because[2]}' if because else ''}."
    return told.partition("\n")[0][:160]


_TOLD = (*_KEYS, "AWS_SESSION_TOKEN", "AWS_REGION", "AWS_DEFAULT_REGION")
_ENDPOINTS = ("AWS_ENDPOINT_URL_S3", "AWS_ENDPOINT_URL")


def _refuse_what_no_request_carries(environ: Mapping[str, str]) -> None:
    """Refuse line ends, blanks and letters beyond ASCII, at which the library would give up without a word.

    Raises:
        BadInput: with the name of the variable, and nothing of what it says.

    Source: RFC 9110 section 5.5 (what a field may hold).
    """
    for name in (*_TOLD, *_ENDPOINTS):
        said = environ.get(name, "")
        if not (said.isascii() and said.isprintable()) or " " in said:
            raise BadInput(
                f"{name} holds a blank, a line end or a letter that no key and no address has",
                "It may have come along when it was copied.",
                "Set it again.",
            )


def _endpoint(environ: Mapping[str, str]) -> str:
    """Where the store is asked, an address of the environment; empty for the provider's own.

    Raises:
        BadInput: it is no address over HTTP.
    """
    name = next((name for name in _ENDPOINTS if environ.get(name)), "")
    if not name:
        return ""
    try:
        parts = urlsplit(environ[name])
        is_host = _HOST.fullmatch(parts.netloc) is not None
        is_one = parts.scheme in ("http", "https") and is_host and not (parts.query or parts.fragment)
        _ = parts.port
    except ValueError:
        is_one = False
    if not is_one:
        raise BadInput(
            f"{name} is no address of a server",
            "It is asked over HTTP, and keys have variables of their own.",
            f"As in {name}=https://store.example.com:9000",
        )
    return environ[name].rstrip("/")
