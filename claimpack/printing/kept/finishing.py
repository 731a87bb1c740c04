"""A drawn file finished: its structure, its colours, and what it says of itself, so that it can be kept for decades."""

from __future__ import annotations

from io import BytesIO

import pikepdf
from pikepdf import Array, Dictionary, Name

from claimpack.printing.kept.reading_order import Element
from claimpack.printing.kept.srgb import srgb_profile
from claimpack.printing.kept.structure import write_structure


def finished(
    content: bytes, document: Element, language: str = "en", *, actual_size: bool = False, turned: int = 0
) -> bytes:
    """The drawn file with all that it needs to be kept; the same bytes for the same file.

    Args:
        content: the drawn file, with its title and author in its properties.
        document: what its pages say and in which order.
        language: of its words, a tag of BCP 47.
        actual_size: whether it must be printed as large as it is, as what goes on labels must.
        turned: by how many degrees its pages are turned on a screen.
    """
    stream = BytesIO()
    with pikepdf.open(BytesIO(content)) as pdf:
        # The drawing engine dates every file the same; no day at all is true.
        if "/CreationDate" in pdf.docinfo:
            del pdf.docinfo["/CreationDate"]
        finish(pdf, document, language)
        if actual_size:
            pdf.Root.ViewerPreferences.PrintScaling = Name("/None")
        for page in pdf.pages if turned else ():
            page.Rotate = turned
        pdf.save(stream, deterministic_id=True)
    return stream.getvalue()


def finish(pdf: pikepdf.Pdf, document: Element, language: str, for_ever: bool = True) -> None:
    """Write structure, colours, page numbers and properties into a document.

    Args:
        pdf: the document, with title, author and the rest in its properties.
        document: what its pages say and in which order.
        language: of its words, a tag of BCP 47.
        for_ever: whether everything in it is known to follow PDF/A, so that it may say so.

    Source: ISO 19005-3:2012 6.2.3 (output intent), 6.6 (metadata), 6.7.2.2 (marked); ISO 14289-1:2014 7.1, 7.2.
    """
    write_structure(pdf, document)
    _colours(pdf)
    _tell(pdf, language, for_ever)
    pdf.Root.Lang = pikepdf.String(language)
    pdf.Root.ViewerPreferences = Dictionary(DisplayDocTitle=True)
    if "/Outlines" in pdf.Root:
        pdf.Root.PageMode = Name.UseOutlines
    pdf.Root.PageLabels = Dictionary(Nums=Array([0, Dictionary(S=Name.D)]))


def is_for_ever(pdf: pikepdf.Pdf) -> bool:
    """Whether a document says of itself that it follows PDF/A."""
    return bool(pdf.open_metadata().pdfa_status)


def _colours(pdf: pikepdf.Pdf) -> None:
    profile = pdf.make_stream(srgb_profile(), N=3)
    intent = Dictionary(
        Type=Name.OutputIntent,
        S=Name.GTS_PDFA1,
        OutputConditionIdentifier=pikepdf.String("sRGB IEC61966-2.1"),
        DestOutputProfile=profile,
    )
    pdf.Root.OutputIntents = Array([intent])


def _tell(pdf: pikepdf.Pdf, language: str, for_ever: bool) -> None:
    """Say the same in both places readers look: the old properties and the XMP packet."""
    told = {key[1:]: str(value) for key, value in pdf.docinfo.items()}
    for key in ("/ModDate", "/Trapped", "/Keywords"):
        if key in pdf.docinfo:
            del pdf.docinfo[key]
    if "/Metadata" in pdf.Root:
        del pdf.Root["/Metadata"]
    with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as xmp:
        xmp["dc:title"] = told.get("Title", "")
        xmp["dc:language"] = {language}
        if "Author" in told:
            xmp["dc:creator"] = [told["Author"]]
        if told.get("Subject"):
            xmp["dc:description"] = told["Subject"]
        for key, name in (("Producer", "pdf:Producer"), ("Creator", "xmp:CreatorTool")):
            if key in told:
                xmp[name] = told[key]
        if "CreationDate" in told:
            year, month, day = told["CreationDate"][2:6], told["CreationDate"][6:8], told["CreationDate"][8:10]
            xmp["xmp:CreateDate"] = f"{year}-{month}-{day}"
        if for_ever:
            xmp["pdfaid:part"], xmp["pdfaid:conformance"] = "3", "B"
