"""Fields of a form on a page, to be filled in with a viewer: texts, ticks, and one of several (ISO 32000-1, 12.7).

Every field has its appearance with it, so that each viewer shows the same, and a label for who hears it. What is typed
is set in Helvetica, which every viewer has.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Literal

from draft.base.record import dataclass
from draft.paper.drawing.drawing import PT
from draft.paper.drawing.passage import Passage

_GREY, _ROUND = "0.45 G 0.6 w", 0.5522847498  # of a circle by four cubics
_RADIO, _STAYS, _LINES, _READ_ONLY = 1 << 15, 1 << 14, 1 << 12, 1
_PRINTED, _HIDDEN = 4, 2


@dataclass(frozen=True)
class Field:
    """A field by its name and what it is called: a text (of several `lines`), a tick, or one of a choice by its state.

    A hidden field holds its `value` and is not seen. `passage` is what it is read as.
    """

    name: str
    told: str
    kind: Literal["text", "tick", "choice", "hidden"] = "text"
    state: str = ""
    lines: bool = False
    value: str = ""
    passage: Passage | None = None


Placed = tuple[Field, tuple[float, float, float, float]]
"""A field and its box on the leaf: left, top, width and height in mm, y down."""


def add_fields(pdf: Any, fields: Mapping[int, Sequence[Placed]]) -> dict[int, list[tuple[Passage | None, Any]]]:
    """Set fields on the pages of a document, by their numbers; of each page the widgets with what they are read as."""
    from pikepdf import Array, Dictionary, Name, String

    form = _Form(pdf)
    found = {number: [form.add(number, field, box) for field, box in placed] for number, placed in fields.items()}
    if found:
        helvetica = Dictionary(
            Type=Name.Font, Subtype=Name.Type1, BaseFont=Name.Helvetica, Encoding=Name.WinAnsiEncoding
        )
        dingbats = Dictionary(Type=Name.Font, Subtype=Name.Type1, BaseFont=Name.ZapfDingbats)
        fonts = Dictionary(Helv=pdf.make_indirect(helvetica), ZaDb=pdf.make_indirect(dingbats))
        pdf.Root.AcroForm = pdf.make_indirect(
            Dictionary(Fields=Array(form.fields), DR=Dictionary(Font=fonts), DA=String("/Helv 10 Tf 0 g"))
        )
    return found


class _Form:
    def __init__(self, pdf: Any) -> None:
        self.pdf = pdf
        self.fields: list[Any] = []
        self.choices: dict[str, Any] = {}

    def add(self, number: int, field: Field, box: tuple[float, float, float, float]) -> tuple[Passage | None, Any]:
        """A widget on a page, and its field where it is the first of it."""
        from pikepdf import Array, Dictionary, Name, String

        page = self.pdf.pages[number].obj
        left, top, wide, high = (side / PT for side in box)
        low = float(page.MediaBox[3]) - top - high
        rect = Array([round(side, 3) for side in (left, low, left + wide, low + high)])
        flags = _HIDDEN if field.kind == "hidden" else _PRINTED
        widget = Dictionary(Type=Name.Annot, Subtype=Name.Widget, Rect=rect, F=flags, P=page, TU=String(field.told))
        widget = self.pdf.make_indirect(widget)
        {"text": self._text, "hidden": self._text, "tick": self._tick, "choice": self._choice}[field.kind](
            widget, field, round(wide, 3), round(high, 3)
        )
        if "/Annots" not in page:
            page.Annots = Array([])
        page.Annots.append(widget)
        return field.passage, widget

    def _text(self, widget: Any, field: Field, wide: float, high: float) -> None:
        from pikepdf import Dictionary, Name, String

        widget.FT, widget.T, widget.DA = Name.Tx, String(field.name), String("/Helv 10 Tf 0 g")
        widget.V = String(field.value)
        widget.Ff = _READ_ONLY if field.kind == "hidden" else _LINES if field.lines else 0
        widget.MK = Dictionary(BC=[0.45])
        frame = f"q {_GREY} 0.3 0.3 {wide - 0.6:.3f} {high - 0.6:.3f} re S Q"
        drawn = "" if field.kind == "hidden" else frame
        widget.AP = Dictionary(N=self._drawn(f"{drawn} /Tx BMC EMC", wide, high))
        self.fields.append(widget)

    def _tick(self, widget: Any, field: Field, wide: float, high: float) -> None:
        from pikepdf import Name, String

        widget.FT, widget.T = Name.Btn, String(field.name)
        self._sign(widget, "4")
        frame = f"q {_GREY} 0.3 0.3 {wide - 0.6:.3f} {high - 0.6:.3f} re S Q"
        corners = [(0.2, 0.5, "m"), (0.42, 0.22, "l"), (0.82, 0.8, "l")]
        tick = " ".join(f"{wide * x:.3f} {high * y:.3f} {go}" for x, y, go in corners)
        cross = f"q 1.2 w {tick} S Q"
        self._states(widget, "Yes", frame, f"{frame} {cross}", wide, high)
        self.fields.append(widget)

    def _choice(self, widget: Any, field: Field, wide: float, high: float) -> None:
        from pikepdf import Array, Dictionary, Name, String

        if field.name not in self.choices:
            group = Dictionary(FT=Name.Btn, T=String(field.name), Ff=_RADIO | _STAYS, Kids=Array([]), V=Name.Off)
            group.TU = String(field.told.partition(": ")[0])
            self.choices[field.name] = self.pdf.make_indirect(group)
            self.fields.append(self.choices[field.name])
        group = self.choices[field.name]
        group.Kids.append(widget)
        widget.Parent = group
        self._sign(widget, "l")
        ring = f"q {_GREY} {_circle(wide / 2, high / 2, min(wide, high) / 2 - 0.5)} S Q"
        dot = f"q {_circle(wide / 2, high / 2, min(wide, high) / 4)} f Q"
        self._states(widget, field.state, ring, f"{ring} {dot}", wide, high)

    def _sign(self, widget: Any, sign: str) -> None:
        """For viewers that draw what is chosen anew: a letter of the dingbats, which every viewer has."""
        from pikepdf import Dictionary, String

        widget.DA, widget.MK = String("/ZaDb 0 Tf 0 g"), Dictionary(CA=String(sign), BC=[0.45])

    def _states(self, widget: Any, state: str, off: str, on: str, wide: float, high: float) -> None:
        from pikepdf import Dictionary, Name

        states = Dictionary()
        states["/Off"], states[f"/{state}"] = self._drawn(off, wide, high), self._drawn(on, wide, high)
        widget.AS, widget.AP = Name.Off, Dictionary(N=states)

    def _drawn(self, content: str, wide: float, high: float) -> Any:
        from pikepdf import Dictionary, Name

        stream = self.pdf.make_stream(content.encode("ascii"))
        stream.Type, stream.Subtype, stream.BBox = Name.XObject, Name.Form, [0, 0, wide, high]
        stream.Resources = Dictionary()
        return stream


def _circle(x: float, y: float, radius: float) -> str:
    """The operators of a circle about a point."""
    k = radius * _ROUND
    corners = [(radius, 0), (radius, k), (k, radius), (0, radius), (-k, radius), (-radius, k), (-radius, 0)]
    corners += [(-radius, -k), (-k, -radius), (0, -radius), (k, -radius), (radius, -k), (radius, 0)]
    points = [f"{x + dx:.3f} {y + dy:.3f}" for dx, dy in corners]
    curves = " ".join(f"{' '.join(points[n : n + 3])} c" for n in (1, 4, 7, 10))
    return f"{points[0]} m {curves}"
