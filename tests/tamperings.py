"""Ways to tamper with a packet, each by its name: through an editor of PDF objects, or byte by byte."""

from __future__ import annotations

import io
import re
import zlib
from collections.abc import Callable
from typing import Any

import pikepdf
import pypdf
from packets import image, jpeg, replace_attachment
from pikepdf import Array, Dictionary, Name, Pdf, String

from claimpack.file_contents import hash_of
from claimpack.packet.sealing.fingerprints import is_jpeg
from claimpack.packet.sealing.manifest import SEAL

SCRIPT = Dictionary(S=Name.JavaScript, JS=String("app.alert(1)"))
WEB = Dictionary(S=Name.URI, URI=String("https://example.com/"))
FREE = b"0000000000 65535 f \n"
SECRET = b"BT (approved) Tj ET"


def in_objects(act: Callable[[Pdf], Any], **how: Any) -> Callable[[bytes], bytes]:
    """A tampering done in an editor, and saved by it."""

    def done(packet: bytes) -> bytes:
        written = io.BytesIO()
        with pikepdf.open(io.BytesIO(packet)) as pdf:
            act(pdf)
            pdf.save(written, fix_metadata_version=False, **how)
        return written.getvalue()

    return done


def spread_out(packet: bytes) -> bytes:
    """The packet with every object readable and no streams of objects."""
    return in_objects(lambda _: None, object_stream_mode=pikepdf.ObjectStreamMode.disable)(packet)


def rebuilt(objects: Callable[[bytes], bytes], trailer: bytes = b"") -> Callable[[bytes], bytes]:
    """A tampering with the bytes before the table of objects, which is then written anew to fit."""

    def done(packet: bytes) -> bytes:
        plain = spread_out(packet)
        body, rest = plain[: plain.rindex(b"xref\n0 ")], plain[plain.rindex(b"trailer") :]
        body = objects(body)
        places = {int(found[1]): found.start(1) for found in re.finditer(rb"(?:^|\n)(\d+) 0 obj\n", body)}
        size = max(places) + 1
        lines = [b"%010d 00000 n \n" % at if (at := places.get(i)) else FREE for i in range(1, size)]
        table = b"xref\n0 %d\n%s%s" % (size, FREE, b"".join(lines))
        if b"/ID" in trailer:
            rest = re.sub(rb"/ID \[.*?\]", b"", rest)
        rest = re.sub(rb"/Size \d+", b"/Size %d%s" % (size, trailer), rest)
        return body + table + re.sub(rb"startxref\n\d+", b"startxref\n%d" % len(body), rest)

    return done


def hidden_object(content: bytes) -> Callable[[bytes], bytes]:
    """An object that nothing refers to, in the table like any other."""
    return rebuilt(lambda body: body + b"9000 0 obj\n%s\nendobj\n" % content)


def updated(act: Callable[[pypdf.PdfWriter], Any]) -> Callable[[bytes], bytes]:
    """An update written behind the packet."""

    def done(packet: bytes) -> bytes:
        writer = pypdf.PdfWriter(io.BytesIO(packet), incremental=True)
        act(writer)
        written = io.BytesIO()
        writer.write(written)
        return written.getvalue()

    return done


def _first_font(pdf: Pdf) -> Any:
    return next(iter(dict(pdf.pages[0].Resources.Font).values()))


def _swap_fonts(pdf: Pdf) -> None:
    _first_font(pdf).BaseFont = Name.Symbol


def _longer_packing(pdf: Pdf) -> None:
    contents = pdf.pages[0].Contents
    contents.write(zlib.compress(contents.read_bytes()) + SECRET, filter=Name.FlateDecode)


def _page_with_picture(pdf: Pdf) -> Any:
    def pictures(page: Any) -> dict[str, Any]:
        shown = dict(page.Resources.get("/XObject", Dictionary()))
        return {name: each for name, each in shown.items() if is_jpeg(each)}

    return next((page, pictures(page)) for page in pdf.pages if pictures(page))


def _swap_picture(pdf: Pdf) -> None:
    page, pictures = _page_with_picture(pdf)
    page.Resources.XObject[next(iter(pictures))] = image(pdf, jpeg("seagreen"))


def _invert_picture(pdf: Pdf) -> None:
    _, pictures = _page_with_picture(pdf)
    next(iter(pictures.values())).Decode = Array([1, 0, 1, 0, 1, 0])


def _comment_on_picture(pdf: Pdf) -> None:
    _, pictures = _page_with_picture(pdf)
    shown = next(iter(pictures.values()))
    shown.write(shown.read_raw_bytes() + SECRET, filter=shown.Filter)


def _layer(pdf: Pdf) -> None:
    group = pdf.make_indirect(Dictionary(Type=Name.OCG, Name=String("approval")))
    pdf.Root.OCProperties = Dictionary(OCGs=Array([group]), D=Dictionary(OFF=Array([group])))
    pdf.pages[0].Resources.Properties = Dictionary(Layer=group)
    pdf.pages[0].contents_add(b"/OC /Layer BDC " + SECRET + b" EMC")


def _new_claim_number(pdf: Pdf) -> None:
    replace_attachment(pdf, "claim.json", lambda claim: claim.update(number="26-9999"))


def _new_amount_with_new_hashes(pdf: Pdf) -> None:
    judged = replace_attachment(pdf, "assessment.json", lambda told: told["amounts"].update(claimed="9999.00"))
    listed = replace_attachment(
        pdf, "manifest.json", lambda made: made["data"].update({"assessment.json": hash_of(judged)})
    )
    pdf.docinfo[SEAL] = hash_of(listed)


def _attach(pdf: Pdf) -> None:
    pdf.attachments["letter.txt"] = pikepdf.AttachedFileSpec(pdf, b"Dear maker", filename="letter.txt")


def _describe(pdf: Pdf) -> None:
    pdf.attachments["claim.json"].obj.Desc = String("The claim, accepted")


def _undescribe(pdf: Pdf) -> None:
    del pdf.attachments["claim.json"].obj.Desc


def _date_attachment(pdf: Pdf) -> None:
    pdf.attachments["claim.json"].obj.EF.F.Params.ModDate = String("D:20200101")


def _relate_attachment(pdf: Pdf) -> None:
    pdf.attachments["claim.json"].obj.AFRelationship = Name.Alternative


def _second_content(pdf: Pdf) -> None:
    pdf.attachments["claim.json"].obj.EF.UF = pdf.make_stream(b"{}")


def _thumbnail(pdf: Pdf) -> None:
    pdf.attachments["claim.json"].obj.Thumb = pdf.make_stream(SECRET)


def _unlist(pdf: Pdf) -> None:
    del pdf.Root.AF[0]


def _note(pdf: Pdf) -> None:
    note = Dictionary(Type=Name.Annot, Subtype=Name.FreeText, Rect=[72, 72, 200, 100], Contents=String("approved"))
    pdf.pages[0].obj.Annots = Array([*pdf.pages[0].obj.get("/Annots", ()), pdf.make_indirect(note)])


def _form(pdf: Pdf) -> None:
    field = Dictionary(FT=Name.Tx, T=String("approval"), V=String("yes"))
    pdf.Root.AcroForm = Dictionary(Fields=Array([pdf.make_indirect(field)]))


def _false_signature(pdf: Pdf) -> None:
    signature = Dictionary(Type=Name.Sig, Filter=Name("/Adobe.PPKLite"), Contents=String("x"))
    field = pdf.make_indirect(Dictionary(FT=Name.Sig, T=String("Signature"), V=pdf.make_indirect(signature)))
    pdf.Root.AcroForm = Dictionary(Fields=Array([field]), SigFlags=3)


def _retitle_bookmark(pdf: Pdf) -> None:
    pdf.Root.Outlines.First.Title = String("Approved")


def _swap_pages(pdf: Pdf) -> None:
    pdf.pages[0], pdf.pages[1] = pdf.pages[1], pdf.pages[0]


def _remove_page(pdf: Pdf) -> None:
    del pdf.pages[1]


def _key(place: Callable[[Pdf], Any], name: str, value: Callable[[Pdf], Any]) -> Callable[[bytes], bytes]:
    """An entry put into an object of the packet."""

    def act(pdf: Pdf) -> None:
        place(pdf)[name] = value(pdf)

    return in_objects(act)


def _stream(pdf: Pdf) -> Any:
    return pdf.make_stream(SECRET)


def _root(pdf: Pdf) -> Any:
    return pdf.Root


def _page(pdf: Pdf) -> Any:
    return pdf.pages[0].obj


def _in_object_stream(packet: bytes) -> bytes:
    """A remark put behind the last object of a stream of objects, the file made anew around it."""
    plain = in_objects(lambda _: None, compress_streams=False)(packet)
    found = re.search(rb"/Type /ObjStm[^>]*?>>\nstream\n", plain)
    head = plain.rindex(b"<<", 0, found.start())
    length = int(re.search(rb"/Length (\d+)", plain[head : found.end()])[1])
    end = found.end() + length
    added = SECRET + b"\n"
    longer = plain[head : found.end()].replace(b"/Length %d" % length, b"/Length %d" % (length + len(added)))
    body = plain[:head] + longer + plain[found.end() : end] + added + plain[end:]
    return _places_moved(body, from_=head, by=len(body) - len(plain))


def _places_moved(content: bytes, from_: int, by: int) -> bytes:
    """The file with its table of objects, a stream without packing, made to fit bytes that were added."""
    start = int(re.search(rb"startxref\n(\d+)", content)[1])
    place = start + by if start >= from_ else start
    head = content[place:]
    widths = [int(width) for width in re.search(rb"/W \[ (\d+) (\d+) (\d+) \]", head).groups()]
    begins = place + re.search(rb"stream\n", head).end()
    length = int(re.search(rb"/Length (\d+)", head)[1])
    table = bytearray(content[begins : begins + length])
    for at in range(0, length, sum(widths)):
        kind, where = table[at], int.from_bytes(table[at + widths[0] : at + widths[0] + widths[1]])
        if kind == 1 and where > from_:
            table[at + widths[0] : at + widths[0] + widths[1]] = (where + by).to_bytes(widths[1])
    content = content[:begins] + bytes(table) + content[begins + length :]
    return content.replace(b"startxref\n%d" % start, b"startxref\n%d" % place)


def _encrypt(packet: bytes) -> bytes:
    return in_objects(lambda _: None, encryption=pikepdf.Encryption(user="", owner="owner"))(packet)


def _lock(packet: bytes) -> bytes:
    return in_objects(lambda _: None, encryption=pikepdf.Encryption(user="user", owner="owner"))(packet)


def _flip(packet: bytes) -> bytes:
    """One bit of a page turned over."""
    with pikepdf.open(io.BytesIO(packet)) as pdf:
        stored = pdf.pages[0].Contents.read_raw_bytes()
    at = packet.index(stored) + len(stored) // 2
    return packet[:at] + bytes([packet[at] ^ 1]) + packet[at + 1 :]


TAMPERINGS: dict[str, Callable[[bytes], bytes]] = {
    "encrypted with an owner password": _encrypt,
    "locked": _lock,
    "a hidden stream": hidden_object(b"<< /Length %d >>\nstream\n%s\nendstream" % (len(SECRET), SECRET)),
    "a hidden string": hidden_object(b"(approved)"),
    "a hidden page": hidden_object(b"<< /Type /Page /MediaBox [0 0 9 9] >>"),
    "a key in the trailer": rebuilt(lambda body: body, b" /Approved (yes)"),
    "a dictionary in the trailer": rebuilt(lambda body: body, b" /Extra << /Note (yes) >>"),
    "a long identifier": rebuilt(lambda body: body, b" /ID [<%s><%s>]" % ((b"ab" * 200,) * 2)),
    "text between two objects": rebuilt(lambda body: body.replace(b"endobj\n", b"endobj\napproved\n", 1)),
    "a comment between two objects": rebuilt(lambda body: body.replace(b"endobj\n", b"endobj\n% approved\n", 1)),
    "a comment inside an object": rebuilt(lambda body: body.replace(b"/Type /Catalog", b"/Type % approved\n/Catalog")),
    "a key named twice": rebuilt(lambda body: body.replace(b"/Type /Catalog", b"/Type /Catalog /Lang (x) /Lang (en)")),
    "an old object left behind": rebuilt(lambda body: b"%PDF-1.7\n1 0 obj\n(old)\nendobj\n" + body[9:]),
    "text behind the last object of a group": _in_object_stream,
    "bytes behind a packed stream": in_objects(_longer_packing),
    "bytes behind the end": lambda packet: packet + b"approved",
    "blanks behind the end": lambda packet: packet + b" " * 50,
    "a second end": lambda packet: packet + b"startxref\n0\n%%EOF\n",
    "bytes before the start": lambda packet: b"approved\n" + packet,
    "cut short": lambda packet: packet[:-40],
    "one bit of a page": _flip,
    "an update with a property": updated(lambda writer: writer.add_metadata({"/Note": "x"})),
    "an update with a page": updated(lambda writer: writer.add_blank_page(100, 100)),
    "an update with an attachment": updated(lambda writer: writer.add_attachment("letter.txt", b"Dear maker")),
    "text on a page": in_objects(lambda pdf: pdf.pages[0].contents_add(b"\n" + SECRET)),
    "a remark in a page's drawing": in_objects(lambda pdf: pdf.pages[0].contents_add(b"% approved")),
    "an empty drawing behind a page's": in_objects(lambda pdf: pdf.pages[0].contents_add(b"")),
    "a stream beside a page's drawing": _key(lambda pdf: pdf.pages[0].Contents, "/Hidden", _stream),
    "another file for a page's drawing": _key(lambda pdf: pdf.pages[0].Contents, "/F", lambda _: String("other.bin")),
    "hidden parameters of a packing": _key(
        lambda pdf: pdf.pages[0].Contents, "/DecodeParms", lambda _: Dictionary(Predictor=1, Note=String("approved"))
    ),
    "words among the parameters of a packing": _key(
        lambda pdf: pdf.pages[0].Contents, "/DecodeParms", lambda _: Dictionary(Columns=String("approved"))
    ),
    "a key of a page": _key(_page, "/Approved", lambda _: True),
    "a page's own metadata": _key(_page, "/Metadata", _stream),
    "data of a program on a page": _key(_page, "/PieceInfo", lambda _: Dictionary(X=Dictionary(Private=String("x")))),
    "an action of a page": _key(_page, "/AA", lambda _: Dictionary(O=SCRIPT)),
    "a thumbnail of a page": _key(_page, "/Thumb", _stream),
    "a page's size": _key(_page, "/CropBox", lambda _: Array([0, 0, 300, 300])),
    "a page turned over": _key(_page, "/Rotate", lambda _: 180),
    "a page's length of time": _key(_page, "/Dur", lambda _: 5),
    "a page enlarged": _key(_page, "/UserUnit", lambda _: 2),
    "a stream in the list of pages": _key(lambda pdf: pdf.Root.Pages, "/Hidden", _stream),
    "resources in the list of pages": rebuilt(
        lambda body: body.replace(b"/Type /Pages", b"/Type /Pages /Resources << /X (approved) >>")
    ),
    "a key of the document": _key(_root, "/Approved", lambda _: String("yes")),
    "a script on opening": _key(_root, "/OpenAction", lambda _: SCRIPT),
    "a page shown on opening": _key(_root, "/OpenAction", lambda pdf: Array([pdf.pages[1].obj, Name.Fit])),
    "an action of the document": _key(_root, "/AA", lambda _: Dictionary(WC=SCRIPT)),
    "a script among the names": _key(
        lambda pdf: pdf.Root.Names, "/JavaScript", lambda _: Dictionary(Names=Array([String("x"), SCRIPT]))
    ),
    "a base for links": _key(_root, "/URI", lambda _: Dictionary(Base=String("https://example.com/"))),
    "an extension of the document": rebuilt(
        lambda body: body.replace(b"/Type /Catalog", b"/Type /Catalog /Extensions << /ADBE << /X (approved) >> >>")
    ),
    "a version of the document": _key(_root, "/Version", lambda _: Name("/approved")),
    "the document's language": _key(_root, "/Lang", lambda _: String("tlh")),
    "a portfolio's face": _key(_root, "/Collection", lambda _: Dictionary(View=Name.T)),
    "page numbers that readers show": _key(
        _root, "/PageLabels", lambda _: Dictionary(Nums=Array([0, Dictionary(S=Name.r)]))
    ),
    "how pages are laid out": _key(_root, "/PageLayout", lambda _: Name.TwoColumnLeft),
    "a structure for screen readers": _key(_root, "/StructTreeRoot", lambda _: Dictionary(Type=Name.StructTreeRoot)),
    "permissions": _key(_root, "/Perms", lambda _: Dictionary(UR3=Dictionary(Type=Name.Sig))),
    "a layer that is switched off": in_objects(_layer),
    "a form": in_objects(_form),
    "a signature that is none": in_objects(_false_signature),
    "a note on a page": in_objects(_note),
    "a bookmark's name": in_objects(_retitle_bookmark),
    "an action of a bookmark": _key(lambda pdf: pdf.Root.Outlines.First, "/A", lambda _: WEB),
    "pages in each other's place": in_objects(_swap_pages),
    "a page removed": in_objects(_remove_page),
    "a page added": in_objects(lambda pdf: pdf.add_blank_page(page_size=(612, 792))),
    "a page twice": in_objects(lambda pdf: pdf.pages.append(pdf.pages[0])),
    "a typeface swapped": in_objects(_swap_fonts),
    "how letters map to characters": _key(_first_font, "/ToUnicode", _stream),
    "a picture swapped": in_objects(_swap_picture),
    "a picture in other colours": in_objects(_invert_picture),
    "bytes behind a picture": in_objects(_comment_on_picture),
    "the title": _key(lambda pdf: pdf.docinfo, "/Title", lambda _: String("Claim 26-9999")),
    "the author": _key(lambda pdf: pdf.docinfo, "/Author", lambda _: String("Somebody Else")),
    "the day": _key(lambda pdf: pdf.docinfo, "/CreationDate", lambda _: String("D:20200101")),
    "the program": _key(lambda pdf: pdf.docinfo, "/Producer", lambda _: String("approved")),
    "the program it was drawn with": _key(lambda pdf: pdf.docinfo, "/Creator", lambda _: String("approved")),
    "a day of change": _key(lambda pdf: pdf.docinfo, "/ModDate", lambda _: String("D:20260302")),
    "a property": _key(lambda pdf: pdf.docinfo, "/Approved", lambda _: String("yes")),
    "the second set of properties": in_objects(lambda pdf: pdf.Root.Metadata.write(b"<x/>")),
    "an attachment's content": in_objects(_new_claim_number),
    "an amount, with its hashes made anew": in_objects(_new_amount_with_new_hashes),
    "an attachment added": in_objects(_attach),
    "an attachment removed": in_objects(lambda pdf: pdf.attachments.__delitem__("plan.json")),
    "the list of hashes removed": in_objects(lambda pdf: pdf.attachments.__delitem__("manifest.json")),
    "an attachment's description": in_objects(_describe),
    "an attachment's description removed": in_objects(_undescribe),
    "an attachment's date": in_objects(_date_attachment),
    "what an attachment is to the pages": in_objects(_relate_attachment),
    "an attachment's second content": in_objects(_second_content),
    "an attachment's thumbnail": in_objects(_thumbnail),
    "an attachment taken from the associated files": in_objects(_unlist),
    "a stream among the attachments": _key(lambda pdf: pdf.Root.Names.EmbeddedFiles, "/Hidden", _stream),
}
