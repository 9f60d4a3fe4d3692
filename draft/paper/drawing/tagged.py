"""The structure of a document for who hears it: what is read in which order, and as what (ISO 32000-1, 14.7 and 14.8).

Whatever is marked on a page belongs to a passage. Passages become elements in the order in which they first
appear, each within what it is part of.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from draft.paper.drawing.ink import clean
from draft.paper.drawing.passage import Headings, Passage

_Annotated = tuple[Passage | None, Any]
"""What a link is read as, and its annotation."""


def tag(pdf: Any, marked: Mapping[int, Sequence[Passage]], links: Mapping[int, Sequence[_Annotated]]) -> None:
    """Give a document its structure: what is marked on each page, by the numbers of its marks, and its links."""
    _Structure(pdf).fill(marked, links)


class _Structure:
    def __init__(self, pdf: Any) -> None:
        from pikepdf import Array, Dictionary, Name

        self.pdf = pdf
        self.root = pdf.make_indirect(Dictionary(Type=Name.StructTreeRoot))
        self.document = self._made("Document", self.root)
        self.root.K = Array([self.document])
        self.made: dict[Passage, Any] = {}
        self.headings = Headings()
        self.parents: list[Any] = []

    def fill(self, marked: Mapping[int, Sequence[Passage]], links: Mapping[int, Sequence[_Annotated]]) -> None:
        """All pages in their order, then the tree by which a place of a page finds its element."""
        from pikepdf import Array, Dictionary, Name

        for number, passages in sorted(marked.items()):
            page = self.pdf.pages[number].obj
            page.StructParents, page.Tabs = len(self.parents), Name.S
            self.parents.append(
                self.pdf.make_indirect(Array([self._marked(p, k, page) for k, p in enumerate(passages)]))
            )
            for passage, annotation in links.get(number, ()):
                self._linked(passage, annotation, page)
        numbers = [part for number, parent in enumerate(self.parents) for part in (number, parent)]
        self.root.ParentTree = self.pdf.make_indirect(Dictionary(Nums=Array(numbers)))
        self.root.ParentTreeNextKey = len(self.parents)
        self.pdf.Root.StructTreeRoot = self.root
        self.pdf.Root.MarkInfo = Dictionary(Marked=True)

    def _marked(self, passage: Passage, number: int, page: Any) -> Any:
        from pikepdf import Dictionary, Name

        element = self._element(passage)
        element.K.append(Dictionary(Type=Name.MCR, Pg=page, MCID=number))
        return element

    def _linked(self, passage: Passage | None, annotation: Any, page: Any) -> None:
        from pikepdf import Dictionary, Name

        if passage is not None:
            annotation.StructParent = len(self.parents)
            self.parents.append(self._element(passage))
            self._element(passage).K.append(Dictionary(Type=Name.OBJR, Obj=annotation, Pg=page))

    def _element(self, passage: Passage) -> Any:
        if passage not in self.made:
            above = self._element(passage.within) if passage.within else self.document
            element = self._made(self.headings.role(passage), above)
            above.K.append(element)
            _describe(element, passage)
            self.made[passage] = element
        return self.made[passage]

    def _made(self, role: str, above: Any) -> Any:
        from pikepdf import Array, Dictionary, Name

        return self.pdf.make_indirect(Dictionary(Type=Name.StructElem, S=Name(f"/{role}"), P=above, K=Array([])))


def _describe(element: Any, passage: Passage) -> None:
    """The words in a figure's stead, and what a head of a table is the head of."""
    from pikepdf import Dictionary, Name, String

    if passage.role == "Figure":
        element.Alt = String(clean(passage.text))
        element.A = Dictionary(O=Name.Layout, Placement=Name.Block)
    if passage.role == "TH":
        scope = Name.Row if passage.of_row else Name.Column
        element.A = Dictionary(O=Name.Table, Scope=scope, RowSpan=passage.rows)
