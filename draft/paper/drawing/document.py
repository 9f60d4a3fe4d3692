"""A PDF put together from drawn pages: which part of which drawing each leaf shows, in which layer, under what name.

Every drawing becomes a form XObject once; leaves show these, moved and clipped, so that a document is small and quick
to make.
"""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from typing import Any

from draft.base.record import dataclass
from draft.paper.drawing.drawing import PT
from draft.paper.drawing.embedded import embedded
from draft.paper.drawing.ink import PageDescription


@dataclass(frozen=True)
class Shown:
    """A drawn page (by its number) on a leaf: its lower left corner in mm from the leaf's, its layer, and its scale."""

    number: int
    x: float = 0.0
    y: float = 0.0
    layer: str = ""
    scale: float = 1.0


@dataclass(frozen=True)
class Link:
    """Where a leaf leads to when it is clicked: a box in mm, x right and y down, and an address."""

    x: float
    y: float
    width: float
    height: float
    address: str


@dataclass(frozen=True)
class Leaf:
    """One page of the document, in mm: `below` is clipped to a margin all round, `above` is not."""

    width: float
    height: float
    below: tuple[Shown, ...] = ()
    above: tuple[Shown, ...] = ()
    margin: float = 0.0
    links: tuple[Link, ...] = ()


@dataclass(frozen=True)
class About:
    """What a document says of itself: title, language, layers in order, and bookmarks as name and leaf."""

    title: str
    language: str
    layers: tuple[str, ...] = ()
    bookmarks: tuple[tuple[str, int], ...] = ()
    actual_size: bool = True
    """Whether viewers are told to print it unscaled and on one side."""


def pdf_document(
    drawings: Sequence[PageDescription], leaves: Sequence[Leaf], about: About, foreign: Sequence[bytes] = ()
) -> bytes:
    """The document. `foreign` are documents of one page, numbered on after the drawings.

    The same input gives the same bytes.
    """
    import pikepdf

    with pikepdf.new() as pdf:
        fonts = _fonts(pdf, drawings)
        xobjects = [_xobject(pdf, one, fonts) for one in drawings]
        others = [pikepdf.open(io.BytesIO(data)) for data in foreign]
        xobjects += [_copied(pdf, other) for other in others]
        groups = _groups(pdf, about.layers)
        for leaf in leaves:
            _add(pdf, leaf, xobjects, groups)
        _describe(pdf, about, groups)
        return _saved(pdf)


def _fonts(pdf: Any, drawings: Sequence[PageDescription]) -> dict[str, Any]:
    """Each face that any drawing sets a letter in."""
    letters: dict[str, set[str]] = {}
    for one in drawings:
        for face, found in one.letters.items():
            letters.setdefault(face, set()).update(found)
    return {face: embedded(pdf, face, found) for face, found in sorted(letters.items())}


def _xobject(pdf: Any, one: PageDescription, fonts: Mapping[str, Any]) -> Any:
    from pikepdf import Dictionary, Name

    xobject = pdf.make_stream(one.content)
    xobject.Type, xobject.Subtype = Name.XObject, Name.Form
    xobject.BBox = [0, 0, round(one.width, 4), round(one.height, 4)]
    xobject.Resources = Dictionary(Font=Dictionary({f"/{face}": fonts[face] for face in sorted(one.letters)}))
    return xobject


def _copied(pdf: Any, other: Any) -> Any:
    xobject = other.make_indirect(other.pages[0].as_form_xobject())
    if "/Group" in xobject:
        del xobject["/Group"]  # it made one viewer several times slower, and changes nothing that is drawn
    return pdf.copy_foreign(xobject)


def _groups(pdf: Any, layers: Sequence[str]) -> dict[str, Any]:
    """An optional content group for each layer: no Usage and no AS, which some viewers put above a reader's choice."""
    from pikepdf import Dictionary, Name, String

    return {name: pdf.make_indirect(Dictionary(Type=Name.OCG, Name=String(name))) for name in layers}


def _add(pdf: Any, leaf: Leaf, xobjects: Sequence[Any], groups: Mapping[str, Any]) -> None:
    from pikepdf import Array, Dictionary, Name, Page

    used, layers, lines = Dictionary(), Dictionary(), []
    if leaf.below:
        wide, tall = leaf.width - 2 * leaf.margin, leaf.height - 2 * leaf.margin
        lines += ["q", _numbers(leaf.margin, leaf.margin, wide, tall) + " re W n"]
        lines += [_shown(shown, xobjects, groups, used, layers) for shown in leaf.below] + ["Q"]
    lines += [_shown(shown, xobjects, groups, used, layers) for shown in leaf.above]
    box = [0, 0, round(leaf.width / PT, 4), round(leaf.height / PT, 4)]
    page = Dictionary(Type=Name.Page, MediaBox=box, Resources=Dictionary(XObject=used, Properties=layers))
    page.Contents = pdf.make_stream("\n".join(lines).encode("ascii"))
    if leaf.links:
        page.Annots = Array([_annotation(pdf, link, leaf.height) for link in leaf.links])
    pdf.pages.append(Page(pdf.make_indirect(page)))


def _shown(shown: Shown, xobjects: Sequence[Any], groups: Mapping[str, Any], used: Any, layers: Any) -> str:
    used[f"/F{shown.number}"] = xobjects[shown.number]
    scale = f"{shown.scale:.6f}".rstrip("0").rstrip(".")
    draw = f"q {scale} 0 0 {scale} {_numbers(shown.x, shown.y)} cm /F{shown.number} Do Q"
    if not shown.layer:
        return draw
    group = f"/G{list(groups).index(shown.layer)}"
    layers[group] = groups[shown.layer]
    return f"/OC {group} BDC {draw} EMC"


def _annotation(pdf: Any, link: Link, height: float) -> Any:
    from pikepdf import Array, Dictionary, Name, String

    box = [link.x, height - link.y - link.height, link.x + link.width, height - link.y]
    action = Dictionary(S=Name.URI, URI=String(link.address))
    return pdf.make_indirect(
        Dictionary(
            Type=Name.Annot,
            Subtype=Name.Link,
            Rect=Array([round(mm / PT, 3) for mm in box]),
            Border=[0, 0, 0],
            A=action,
        )
    )


def _numbers(*mm: float) -> str:
    return " ".join(f"{value / PT:.5f}".rstrip("0").rstrip(".") for value in mm)


def _describe(pdf: Any, about: About, groups: Mapping[str, Any]) -> None:
    from pikepdf import Array, Dictionary, Name, OutlineItem, String

    root = pdf.Root
    if groups:
        every = Array(groups.values())
        root.OCProperties = Dictionary(OCGs=every, D=Dictionary(Order=every, ON=every))
    root.ViewerPreferences = Dictionary(DisplayDocTitle=True)
    if about.actual_size:
        root.ViewerPreferences.PrintScaling = Name("/None")
        root.ViewerPreferences.Duplex = Name.Simplex
        root.ViewerPreferences.PickTrayByPDFSize = True
    root.Lang = String(about.language)
    root.PageLabels = Dictionary(Nums=Array([0, Dictionary(S=Name.D)]))
    if about.bookmarks:
        with pdf.open_outline() as outline:
            outline.root.extend(OutlineItem(name, leaf) for name, leaf in about.bookmarks)
    if "/Info" in pdf.trailer:
        del pdf.trailer["/Info"]
    pdf.docinfo["/Title"] = about.title
    pdf.docinfo["/Creator"] = "plainseam"


def _saved(pdf: Any) -> bytes:
    import pikepdf

    file = io.BytesIO()
    pdf.save(file, min_version="1.6", deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    return file.getvalue()
