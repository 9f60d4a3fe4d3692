"""A PDF put together from drawn pages: which part of which drawing each leaf shows, in which layer, under what name.

Every drawing becomes a form XObject once; leaves show these, moved and clipped, so that a document is small and quick
to make.
"""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from typing import Any

from draft.base.record import dataclass
from draft.paper.drawing.described import describe
from draft.paper.drawing.drawing import PT
from draft.paper.drawing.embedded import embedded
from draft.paper.drawing.form_fields import Placed, add_fields
from draft.paper.drawing.imprint import NO_IMPRINT, Imprint
from draft.paper.drawing.ink import PageDescription
from draft.paper.drawing.passage import Passage
from draft.paper.drawing.unseen import FACE, unseen


@dataclass(frozen=True)
class Shown:
    """A drawn page on a leaf: its lower left corner in mm from the leaf's, its layer, and its scale.

    It is known by its number, -1 being the last.
    """

    number: int
    x: float = 0.0
    y: float = 0.0
    layer: str = ""
    scale: float = 1.0
    passage: Passage | None = None
    """What a picture is read as, on a page that is marked."""


@dataclass(frozen=True)
class Link:
    """Where a leaf leads to when it is clicked: a box in mm, x right and y down, and an address."""

    x: float
    y: float
    width: float
    height: float
    address: str
    passage: Passage | None = None
    """What is read there."""


@dataclass(frozen=True)
class Leaf:
    """One page of the document, in mm: `below` is clipped to a margin all round, `above` is not.

    `marked` is a drawn page whose passages are read; it lies lowest, so many times `enlarged`. Or all of it
    is one `figure`.
    """

    width: float
    height: float
    below: tuple[Shown, ...] = ()
    above: tuple[Shown, ...] = ()
    margin: float = 0.0
    links: tuple[Link, ...] = ()
    marked: int | None = None
    enlarged: float = 1.0
    figure: Passage | None = None

    def read(self, drawings: Sequence[PageDescription]) -> tuple[Passage, ...]:
        """What is read on it, each under its number in the marked content."""
        if self.figure:
            return (self.figure,)
        return () if self.marked is None else drawings[self.marked].passages


@dataclass(frozen=True)
class About:
    """What a document says of itself: title, language, layers in order, and bookmarks as name and leaf."""

    title: str
    language: str
    layers: tuple[str, ...] = ()
    bookmarks: tuple[tuple[str, int], ...] = ()
    actual_size: bool = True
    """Whether viewers are told to print it unscaled and on one side."""
    imprint: Imprint = NO_IMPRINT


def pdf_document(
    drawings: Sequence[PageDescription],
    leaves: Sequence[Leaf],
    about: About,
    foreign: Sequence[bytes] = (),
    fields: Mapping[int, Sequence[Placed]] | None = None,
) -> bytes:
    """The document. `foreign` are documents of one page, numbered on after the drawings; `fields` those of a form, by
    the numbers of their leaves.

    The same input gives the same bytes.
    """
    import pikepdf

    with pikepdf.new() as pdf:
        fonts = _fonts(pdf, drawings)
        own = {leaf.marked for leaf in leaves}
        xobjects = [None if k in own else _xobject(pdf, one, fonts) for k, one in enumerate(drawings)]
        others = [pikepdf.open(io.BytesIO(data)) for data in foreign]
        xobjects += [_copied(pdf, other) for other in others]
        groups = _groups(pdf, about.layers)
        for leaf in leaves:
            _add(pdf, leaf, xobjects, groups, {passage: k for k, passage in enumerate(leaf.read(drawings))})
            if leaf.marked is not None:
                _set_lowest(pdf, drawings[leaf.marked], leaf, fonts)
        _tag(pdf, drawings, leaves, add_fields(pdf, fields or {}))
        _describe(pdf, about, groups)
        return _saved(pdf)


def _fonts(pdf: Any, drawings: Sequence[PageDescription]) -> dict[str, Any]:
    """Each face that any drawing sets a letter in."""
    letters: dict[str, set[str]] = {}
    for one in drawings:
        for face, found in one.letters.items():
            letters.setdefault(face, set()).update(found)
    return {
        face: unseen(pdf, found) if face == FACE else embedded(pdf, face, found)
        for face, found in sorted(letters.items())
    }


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


def _add(
    pdf: Any, leaf: Leaf, xobjects: Sequence[Any], groups: Mapping[str, Any], numbers: Mapping[Passage, int]
) -> None:
    from pikepdf import Array, Dictionary, Name, Page

    used, layers, lines = Dictionary(), Dictionary(), []
    if leaf.below:
        wide, tall = leaf.width - 2 * leaf.margin, leaf.height - 2 * leaf.margin
        lines += ["q", _numbers(leaf.margin, leaf.margin, wide, tall) + " re W n"]
        lines += [_shown(shown, xobjects, groups, used, layers) for shown in leaf.below] + ["Q"]
    lines += [_as_read(_shown(shown, xobjects, groups, used, layers), shown, numbers) for shown in leaf.above]
    box = [0, 0, round(leaf.width / PT, 4), round(leaf.height / PT, 4)]
    page = Dictionary(Type=Name.Page, MediaBox=box, Resources=Dictionary(XObject=used, Properties=layers))
    if leaf.figure:
        lines = [f"/{leaf.figure.role} <</MCID 0>> BDC", *lines, "EMC"]
    page.Contents = pdf.make_stream("\n".join(lines).encode("ascii"))
    if leaf.links:
        page.Annots = Array([_annotation(pdf, link, leaf.height) for link in leaf.links])
    pdf.pages.append(Page(pdf.make_indirect(page)))


def _as_read(drawn: str, shown: Shown, numbers: Mapping[Passage, int]) -> str:
    """A picture marked as what it is read as."""
    if shown.passage is None:
        return drawn
    return f"/{shown.passage.role} <</MCID {numbers[shown.passage]}>> BDC {drawn} EMC"


def _set_lowest(pdf: Any, one: PageDescription, leaf: Leaf, fonts: Mapping[str, Any]) -> None:
    """What a page's own description draws, below what it shows of others."""
    from pikepdf import Dictionary

    page = pdf.pages[-1].obj
    page.Resources.Font = Dictionary({f"/{face}": fonts[face] for face in sorted(one.letters)})
    scale = f"q {leaf.enlarged:g} 0 0 {leaf.enlarged:g} 0 0 cm\n".encode("ascii")
    page.Contents = pdf.make_stream(scale + one.content + b"\nQ\n" + page.Contents.read_bytes())


def _tag(
    pdf: Any,
    drawings: Sequence[PageDescription],
    leaves: Sequence[Leaf],
    widgets: Mapping[int, Sequence[tuple[Passage | None, Any]]],
) -> None:
    """The structure of what is marked, and of the links and fields beside it."""
    from draft.paper.drawing.tagged import tag

    marked = {k: read for k, leaf in enumerate(leaves) if (read := leaf.read(drawings))}
    links = {
        k: [
            *((link.passage, pdf.pages[k].obj.Annots[n]) for n, link in enumerate(leaves[k].links)),
            *widgets.get(k, ()),
        ]
        for k in marked
    }
    if marked:
        tag(pdf, marked, links)


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
            Contents=String(link.address),
            F=4,
        )
    )


def _numbers(*mm: float) -> str:
    return " ".join(f"{value / PT:.5f}".rstrip("0").rstrip(".") for value in mm)


_AS_PRINTED = "all layers"
"""What viewers may call the layers as a document opens (ISO 14289-1, 7.10, asks for a name)."""


def _describe(pdf: Any, about: About, groups: Mapping[str, Any]) -> None:
    from pikepdf import Array, Dictionary, Name, OutlineItem, String

    root = pdf.Root
    if groups:
        every = Array(groups.values())
        shown = Dictionary(Name=String(_AS_PRINTED), Order=every, ON=every)
        root.OCProperties = Dictionary(OCGs=every, D=shown)
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
        pdf.Root.PageMode = Name.UseOutlines
    if groups:
        pdf.Root.PageMode = Name.UseOC
    if "/Info" in pdf.trailer:
        del pdf.trailer["/Info"]
    describe(pdf, about.title, about.language, about.imprint)


def _saved(pdf: Any) -> bytes:
    import pikepdf

    file = io.BytesIO()
    pdf.save(file, min_version="1.6", deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    return file.getvalue()
