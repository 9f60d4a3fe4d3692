"""What a file says of itself to a shelf of files: title, maker, subject, rights and choices, but no date.

A pattern has no date of its own, and that of the day would make other bytes of the same pattern.
"""

from __future__ import annotations

from typing import Any

from draft.paper.drawing.imprint import Imprint
from draft.paper.drawing.ink import clean

_ACCESSIBLE = "http://www.aiim.org/pdfua/ns/id/"
"""Of the part of ISO 14289 that a tagged document keeps to (ISO 14289-1, 5)."""


def describe(pdf: Any, title: str, language: str, imprint: Imprint) -> None:
    """Set the document's information and its XMP, which say the same."""
    from pikepdf.models import PdfMetadata

    words, face = "; ".join(imprint.choices), imprint.face
    info = {"/Title": title, "/Author": imprint.maker, "/Subject": imprint.subject, "/Keywords": words}
    for key, text in info.items():
        if text or key == "/Title":
            pdf.docinfo[key] = text
    pdf.docinfo["/Creator"] = "plainseam"
    PdfMetadata.register_xml_namespace(_ACCESSIBLE, "pdfuaid")
    with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as xmp:
        said = {
            "dc:title": clean(title),
            "dc:creator": [clean(imprint.maker)] if imprint.maker else "",
            "dc:description": clean(imprint.subject),
            "dc:rights": clean(imprint.licence),
            "dc:publisher": {clean(face.name)} if face.name else "",
            "xmpRights:UsageTerms": clean(" ".join(face.terms)),
            "xmpRights:WebStatement": clean(face.link),
            "dc:language": {language},
            "pdf:Keywords": clean(words),
            "xmp:CreatorTool": "plainseam",
            "xmpMM:VersionID": clean(imprint.version),
            "pdfuaid:part": "1" if "/StructTreeRoot" in pdf.Root else "",
        }
        for key, value in said.items():
            if value:
                xmp[key] = value
