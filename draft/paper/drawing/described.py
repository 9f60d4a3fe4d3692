"""What a file says of itself to a shelf of files: title, maker, subject, rights and choices, but no date.

A pattern has no date of its own, and that of the day would make other bytes of the same pattern.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from typing import Any

from draft.paper.drawing.imprint import Imprint
from draft.paper.drawing.ink import clean

_SPACES = {
    "dc": "http://purl.org/dc/elements/1.1/",
    "pdf": "http://ns.adobe.com/pdf/1.3/",
    "pdfuaid": "http://www.aiim.org/pdfua/ns/id/",
    "xmp": "http://ns.adobe.com/xap/1.0/",
    "xmpMM": "http://ns.adobe.com/xap/1.0/mm/",
    "xmpRights": "http://ns.adobe.com/xap/1.0/rights/",
}
"""Spaces of names (ISO 16684-1, 8); `pdfuaid` of the part of ISO 14289 that a tagged document keeps to (its 5)."""
_BEGIN = (
    '<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>\n<x:xmpmeta xmlns:x="adobe:ns:meta/" x:xmptk="pikepdf">\n'
    ' <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">\n <rdf:Description rdf:about="">'
)
_END = '</rdf:Description></rdf:RDF>\n</x:xmpmeta>\n\n<?xpacket end="w"?>\n'
_IN_WORDS = "dc:title", "dc:description", "dc:rights", "xmpRights:UsageTerms"
"""Properties that may be there in several languages."""


def describe(pdf: Any, title: str, language: str, imprint: Imprint) -> None:
    """Set the document's information and its XMP, which say the same."""
    from pikepdf import Name, Stream

    words = "; ".join(imprint.choices)
    info = {"/Title": title, "/Author": imprint.maker, "/Subject": imprint.subject, "/Keywords": words}
    for key, text in info.items():
        if text or key == "/Title":
            pdf.docinfo[key] = text
    pdf.docinfo["/Creator"] = "plainseam"
    packet = packet_of(properties(title, language, imprint, "/StructTreeRoot" in pdf.Root))
    pdf.Root.Metadata = Stream(pdf, packet, Type=Name.Metadata, Subtype=Name.XML)


def properties(title: str, language: str, imprint: Imprint, tagged: bool) -> dict[str, str | list[str] | set[str]]:
    """What the XMP says: a text, a list in order or a set by the name of each property that has any."""
    face = imprint.face
    said: dict[str, str | list[str] | set[str]] = {
        "dc:title": clean(title),
        "dc:creator": [clean(imprint.maker)] if imprint.maker else "",
        "dc:description": clean(imprint.subject),
        "dc:rights": clean(imprint.licence),
        "dc:publisher": {clean(face.name)} if face.name else "",
        "xmpRights:UsageTerms": clean(" ".join(face.terms)),
        "xmpRights:WebStatement": clean(face.link),
        "dc:language": {language},
        "pdf:Keywords": clean("; ".join(imprint.choices)),
        "xmp:CreatorTool": "plainseam",
        "xmpMM:VersionID": clean(imprint.version),
        "pdfuaid:part": "1" if tagged else "",
    }
    return {name: value for name, value in said.items() if value}


def packet_of(said: dict[str, str | list[str] | set[str]]) -> bytes:
    """Properties as a packet of XMP. Libraries write the same, and take longer to import than a document to make."""
    return "".join([_BEGIN, *(_property(name, value) for name, value in said.items()), _END]).encode()


def _property(name: str, value: str | list[str] | set[str]) -> str:
    space = name.partition(":")[0]
    return f'<{name} xmlns:{space}="{_SPACES[space]}">{_value(name, value)}</{name}>'


def _value(name: str, value: str | list[str] | set[str]) -> str:
    if isinstance(value, str):
        return _listed("Alt", [value], ' xml:lang="x-default"') if name in _IN_WORDS else escape(value, quote=False)
    return _listed("Seq" if isinstance(value, list) else "Bag", sorted(value) if isinstance(value, set) else value)


def _listed(kind: str, values: Iterable[str], language: str = "") -> str:
    items = "".join(f"<rdf:li{language}>{escape(value, quote=False)}</rdf:li>" for value in values)
    return f"<rdf:{kind}>{items}</rdf:{kind}>"
