"""The page as a web application: who may ask, what may be asked, and no more said than that."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any
from urllib.parse import unquote

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.requests import ClientDisconnect, Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from claimpack.errors import BadInput, ClaimpackError
from claimpack.phone.bench import Bench, SentPicture
from claimpack.phone.session import PageSession, device_in
from claimpack.phone.uploads import MOST_PIECE, Uploads
from claimpack.phone.words import PAGE, language_for, page_in, words_script

COOKIE = "phone"
_PAGES: Mapping[str, tuple[str, Callable[[str], bytes]]] = MappingProxyType(
    {
        "": ("text/html", page_in),
        "words.js": ("text/javascript", words_script),
        "page.js": ("text/javascript", lambda _language: (PAGE / "page.js").read_bytes()),
        "page.css": ("text/css", lambda _language: (PAGE / "page.css").read_bytes()),
    }
)
"""What kind each part of the page is, and what it is in a language."""
_MOST_TOLD = 16_384
_LONGEST_WORD = 400
_NUMBER = re.compile(r"[0-9]{1,12}")
_POLICY = (
    b"default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; "
    b"form-action 'none'; base-uri 'none'; frame-ancestors 'none'"
)
HEADERS = (
    (b"content-security-policy", _POLICY),
    (b"x-content-type-options", b"nosniff"),
    (b"x-frame-options", b"DENY"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cache-control", b"no-store"),
)
"""On every answer: no script but the page's own, no frame around it, nothing kept by the browser.

Source: W3C Content Security Policy Level 3; WHATWG Fetch (cross-origin headers).
"""


def phone_app(session: PageSession, bench: Bench, folder: Path, end: Callable[[], None], language: str = "") -> ASGIApp:
    """The application of one session.

    Args:
        session: whom it answers.
        bench: what it asks.
        folder: where files wait while they come in.
        end: ends the session.
        language: of the shop's packets, for a phone that asks for none the page has; empty for none.
    """
    page = _Page(session, bench, Uploads(folder), end, language)
    root = f"/{session.token}"
    routes = [
        Route(f"{root}/files/{{sha256}}", page.file, methods=["GET", "PUT"]),
        Route(f"{root}/join", page.join, methods=["POST"]),
        Route(f"{root}/claim", page.claim, methods=["POST"]),
        Route(f"{root}/tag", page.tag, methods=["POST"]),
        Route(f"{root}/end", page.end, methods=["POST"]),
        Route(f"{root}/claims/{{number}}/pictures", page.pictures, methods=["POST"]),
        Route(f"{root}/claims/{{number}}/{{action}}", page.action, methods=["POST"]),
        Route(f"{root}/{{name}}", page.asset, methods=["GET"]),
        Route(f"{root}/", page.asset, methods=["GET"]),
    ]
    handlers: Any = {ClaimpackError: _told, ClientDisconnect: _gone, Exception: page.fault}
    return Starlette(routes=routes, middleware=[Middleware(_Guard, session=session)], exception_handlers=handlers)


class _Guard:
    """What every request must bring, before anything is looked at."""

    def __init__(self, app: ASGIApp, session: PageSession) -> None:
        self._app, self._session = app, session

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return
        request = Request(scope)

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", []), *HEADERS]
            await send(message)

        refused = self._refused(request)
        await (Response(status_code=refused) if refused else self._app)(scope, receive, guarded)

    def _refused(self, request: Request) -> int:
        """The status a request is refused with; 0 where it is let in."""
        # Another name for this machine's address would let any page on the phone talk to it.
        if request.headers.get("host", "") != self._session.host:
            return 421
        _, token, *rest = request.url.path.split("/", 2)
        if not rest or not self._session.is_token(unquote(token)):
            return 404
        if request.method != "GET" and request.headers.get("origin", "") != self._session.origin:
            return 403
        is_open = (request.method == "GET" and rest[0] in _PAGES) or rest[0] == "join"
        return 0 if is_open or self._session.knows(request.cookies.get(COOKIE, "")) else 403


class _Page:
    """Every answer of the page."""

    def __init__(
        self, session: PageSession, bench: Bench, uploads: Uploads, end: Callable[[], None], language: str
    ) -> None:
        self._session, self._bench, self._uploads, self._end = session, bench, uploads, end
        self._language = language
        # An answer that got lost on the way is given once more.
        self._answers: dict[tuple[str, str, str], dict[str, Any]] = {}

    async def asset(self, request: Request) -> Response:
        """The page itself, its script and its style."""
        part = _PAGES.get(request.path_params.get("name", ""))
        if not part:
            return Response(status_code=404)
        kind, content = part
        language = language_for(request.headers.get("accept-language", ""), self._language)
        return Response(await run_in_threadpool(content, language), media_type=kind)

    async def join(self, request: Request) -> Response:
        """One phone takes part; the same one may ask again."""
        key = request.cookies.get(COOKIE, "")
        if not self._session.knows(key):
            key = self._session.join()
            if not key:
                return _error(403, "Another phone uses this page.", "Start it anew, with --devices 2 for two phones.")
            await self._asked(self._bench.joined, device_in(request.headers.get("user-agent", "")))
        answer = JSONResponse(await self._asked(self._bench.begun))
        answer.set_cookie(
            COOKIE,
            key,
            max_age=self._session.seconds,
            path=f"/{self._session.token}/",
            httponly=True,
            samesite="strict",
            secure=self._session.is_https,
        )
        return answer

    async def file(self, request: Request) -> Response:
        """A piece of a file, or how much of it is there."""
        sha256 = request.path_params["sha256"]
        if request.method == "GET":
            return JSONResponse({"received": self._uploads.received(sha256)})
        at, size = (_number(request.query_params.get(name, "")) for name in ("at", "size"))
        piece = await _body(request, MOST_PIECE)
        return JSONResponse({"received": await run_in_threadpool(self._uploads.add, sha256, at, size, piece)})

    async def claim(self, request: Request) -> Response:
        """A claim by its number or a tag's code."""
        told = await _told_in(request)
        return JSONResponse(await self._asked(self._bench.claim_called, told.get("code", "")))

    async def tag(self, request: Request) -> Response:
        """A claim by a picture of its tag."""
        sha256 = (await _told_in(request)).get("sha256", "")
        try:
            return JSONResponse(await self._asked(self._bench.claim_on_tag, self._uploads.file(sha256)))
        finally:
            self._uploads.drop(sha256)

    async def pictures(self, request: Request) -> Response:
        """A picture that came whole goes on a claim."""
        told = await _told_in(request)
        sha256, number = told.get("sha256", ""), request.path_params["number"]
        asked = (number, sha256, told.get("shot", ""))
        if asked not in self._answers:
            sent = SentPicture(
                self._uploads.file(sha256), sha256, *(told.get(key, "") for key in ("name", "shot", "instead"))
            )
            try:
                self._answers[asked] = await run_in_threadpool(self._bench.take, number, sent)
            except BadInput:
                self._uploads.drop(sha256)
                raise
            self._uploads.filed(sha256)
        return JSONResponse(self._answers[asked])

    async def action(self, request: Request) -> Response:
        """Something is written down about a claim."""
        told, path = await _told_in(request), request.path_params
        return JSONResponse(await self._asked(self._bench.do, path["number"], path["action"], told))

    async def end(self, _request: Request) -> Response:
        """The session ends."""
        self._end()
        return JSONResponse({})

    async def fault(self, _request: Request, fault: Exception) -> Response:
        """A fault of the program: the phone is told that there was one, the terminal what it was."""
        self._bench.failed(fault)
        return _error(500, "The program at the shop made a fault.", "Look at the screen it runs on.")

    async def _asked(self, ask: Callable[..., Any], *what: Any) -> Any:
        return await run_in_threadpool(ask, *what)


async def _told(_request: Request, error: Exception) -> Response:
    told = error if isinstance(error, ClaimpackError) else BadInput(str(error))
    return _error(400, told.what, told.why)


async def _gone(_request: Request, _error: Exception) -> Response:
    return Response(status_code=400)


def _error(status: int, what: str, why: str) -> JSONResponse:
    return JSONResponse({"what": what, "why": why}, status)


async def _told_in(request: Request) -> dict[str, str]:
    """What a request tells: short words by name.

    Raises:
        BadInput: it is anything else.
    """
    try:
        told = json.loads(await _body(request, _MOST_TOLD))
    except (ValueError, RecursionError):
        told = None
    words = told.values() if isinstance(told, dict) else (None,)
    if any(not isinstance(word, str) or len(word) > _LONGEST_WORD for word in words):
        raise BadInput("the page sent something that is not understood")
    return dict(told)


async def _body(request: Request, most: int) -> bytes:
    """The body of a request.

    Raises:
        BadInput: it is longer than what is asked for.
    """
    read = bytearray()
    async for some in request.stream():
        read += some
        if len(read) > most:
            raise BadInput(f"more than {most} bytes came at once")
    return bytes(read)


def _number(said: str) -> int:
    if not _NUMBER.fullmatch(said):
        raise BadInput("a piece of a file says where it begins and how long the file is")
    return int(said)
