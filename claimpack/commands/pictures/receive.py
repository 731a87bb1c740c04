"""`claimpack photo receive`: a page for the technician's phone, as long as the command runs."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Json
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.commands.pictures.phone_bench import PhoneBench
    from claimpack.phone.session import PageSession

_READ_BY_OTHERS = "Plain http: whoever is on that network can read what is sent. --https keeps it from them."


def receive_photos(
    context: Context,
    only: Annotated[
        str,
        Argument(metavar="[CLAIM]", help="The claim it is for; without one the phone chooses."),
    ] = "",
    minutes: Annotated[int, Option(metavar="N", min=1, max=720, help="It ends by itself after so long.")] = 30,
    devices: Annotated[int, Option(metavar="N", min=1, max=20, help="How many phones may take part.")] = 1,
    address: Annotated[str, Option(metavar="ADDRESS", help="This machine's address on the shop's network.")] = "",
    port: Annotated[
        int | None,
        Option(metavar="PORT", min=1, max=65535, help="The port it waits at; default: a free one."),
    ] = None,
    https: Annotated[bool, Option("--https", help="Nobody on the network can read what is sent.")] = False,
    json: Json = False,
) -> int:
    """Take pictures with a phone on the shop's network."""
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.commands.pictures.phone_bench import PhoneBench
    from claimpack.commands.pictures.until_enter import until_enter
    from claimpack.phone.address import host_of, listening, own_address
    from claimpack.phone.app import phone_app
    from claimpack.phone.certificate import certificate_for
    from claimpack.phone.serving import Ending, serve
    from claimpack.phone.session import PageSession

    world, say = context.obj, Say(context.obj)
    bench = PhoneBench(world, say, number_of(only) if only else "")
    where = address or own_address()
    certificate = certificate_for(where, world.now()) if https else None
    waiting = listening(where, port)
    session, ending = PageSession(host_of(waiting), minutes, devices, is_https=https), Ending()
    with tempfile.TemporaryDirectory(prefix="claimpack-phone.") as name:
        folder = Path(name)
        keys = _put_down(folder, certificate.certificate, certificate.key) if certificate else None
        app = phone_app(session, bench, folder, ending, bench.language)
        _tell_begun(say, session, minutes, certificate.fingerprint if certificate else "")
        with until_enter(world, ending):
            serve(app, waiting, ending, session.seconds, keys)
    return _tell_ended(say, bench, json=json)


def _put_down(folder: Path, certificate: bytes, key: bytes) -> tuple[Path, Path]:
    """The certificate and its key in files, which go with the session."""
    from claimpack.files import write_together

    names = folder / "certificate.pem", folder / "key.pem"
    write_together(dict(zip(names, (certificate, key), strict=True)))
    return names


def _tell_begun(say: Say, session: PageSession, minutes: int, fingerprint: str) -> None:
    from claimpack.core.values.numbers_said import how_many
    from claimpack.tag.barcodes import qr_modules

    if say.world.stderr.isatty():
        say.code(qr_modules(session.url))
    say.note(f"Scan it with the phone, or type: {session.url}")
    if fingerprint:
        say.note(
            "The phone will warn that it does not know the certificate. It is made for today; compare its SHA-256:"
        )
        say.note(fingerprint)
    else:
        say.note(_READ_BY_OTHERS)
    enter = "Enter, " if say.world.stdin.isatty() else ""
    after = how_many(minutes, "minute")
    say.note(f"It ends after {after}; sooner with {enter}Ctrl-C, or from the page.")


def _tell_ended(say: Say, bench: PhoneBench, *, json: bool) -> int:
    from claimpack.core.values.numbers_said import how_many

    if json:
        say.document({"claims": [{"claim": number, "added": files} for number, files in bench.added.items()]})
        return 0
    for number, files in bench.added.items():
        say.answer(f"{number}: {how_many(len(files), 'photo')} added")
    if not bench.added:
        say.note("No picture came.")
    return 0
