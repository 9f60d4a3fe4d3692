"""What a document says of itself, held to pikepdf's own writer of XMP (ISO 16684-1)."""

from __future__ import annotations

import pikepdf
import pytest
from pikepdf.models import PdfMetadata

from draft.paper.drawing.described import packet_of, properties
from draft.paper.drawing.face import Face
from draft.paper.drawing.imprint import NO_IMPRINT, Imprint

_FULL = Imprint(
    maker="A & <B> \"c\" 'd'",
    version="1.2",
    licence="use <it> & share",
    cloth="Jersey, 45 % ä ü א",
    choices=("neck: vee", "hem: a & b"),
    sizes="Size M",
    face=Face(name="Salt & Lane", link="https://seams.example/?a=1&b=2", terms=("one.", "two.")),
)


@pytest.mark.parametrize("imprint", [NO_IMPRINT, _FULL], ids=["empty", "full"])
@pytest.mark.parametrize("tagged", [True, False])
def test_the_packet_is_what_a_library_writes(imprint: Imprint, tagged: bool) -> None:
    said = properties("Marlpit <top> & more", "de", imprint, tagged)
    PdfMetadata.register_xml_namespace("http://www.aiim.org/pdfua/ns/id/", "pdfuaid")
    with pikepdf.new() as pdf:
        with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as xmp:
            for name, value in said.items():
                xmp[name] = value
        assert packet_of(said) == pdf.Root.Metadata.read_bytes()
