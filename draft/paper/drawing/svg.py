"""SVG: a drawing as text that opens true to size in a browser, an editor or a projector."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from html import escape

import numpy as np

from draft.base.arrays import Floats
from draft.geometry import cubic
from draft.paper.drawing import font
from draft.paper.drawing.drawing import Drawing, Item, Label, Layer, Path, Stroke
from draft.paper.drawing.runs_in_words import runs_in_words

_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
_ENDINGS = ("0", "0", "0", ".")
"""What a number of three places loses at its end, one after the other."""
_MINUS_NOTHING = re.compile(r"(?<![^ ,])-0(?=[ ,])")
_ID = re.compile(r"[^\w.\-]+")


def svg(drawing: Drawing) -> str:
    """The drawing as an SVG document, one group per layer, one millimetre to the unit."""
    size = f'width="{_number(drawing.width)}mm" height="{_number(drawing.height)}mm"'
    view = f'viewBox="0 0 {_number(drawing.width)} {_number(drawing.height)}"'
    family = f"{font.FAMILY}, {font.OTHERS}, {font.FALLBACK}"
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {size} {view} font-family="{family}">'
    title = ", ".join(words for words in (drawing.title, drawing.subtitle) if words)
    paper = '<rect width="100%" height="100%" fill="#ffffff"/>'
    body = [_layer(layer) for layer in drawing.layers]
    return "\n".join([head, f"<title>{clean(title)}</title>", paper, *body, "</svg>\n"])


def clean(text: str) -> str:
    """Text that can stand in a document: control characters gone, the rest escaped."""
    return escape(_CONTROL.sub("", text.replace("\n", " ").replace("\t", " ")))


def identity(text: str) -> str:
    """A name as an XML id: letters, digits, points and hyphens."""
    name = _ID.sub("-", text)
    return name if re.match(r"[^\W\d]", name) else f"_{name}"


def _layer(layer: Layer) -> str:
    attributes = f' data-size="{clean(layer.size)}"' if layer.size else ""
    items = "\n".join(items_svg(layer.items))
    return f'<g id="{identity(layer.name)}"{attributes}>\n{items}\n</g>'


def items_svg(items: Iterable[Item]) -> list[str]:
    """Each item as an element; nothing for a path that has no length."""
    items = tuple(items)
    data = _data_of([run for item in items if isinstance(item, Path) for run in item.runs if len(run)])
    said = (_path(item, data) if isinstance(item, Path) else _label(item) for item in items)
    return [element for element in said if element]


def _named(item: Item) -> str:
    named = f' id="{identity(item.id)}"' if item.id else ""
    return named + "".join(f' data-{name}="{clean(value)}"' for name, value in item.data)


def _path(path: Path, data: Iterator[str]) -> str:
    """A path, which takes the data of its runs from those of all."""
    drawn = [one for one in (next(data) for run in path.runs if len(run)) if one]
    if not drawn:
        return ""
    d = " ".join(one + (" Z" if path.closed else "") for one in drawn)
    fill = path.fill or "none"
    return f'<path{_named(path)} d="{d}" fill="{fill}"{_stroke(path.stroke) if path.stroke else ""}/>'


def _stroke(stroke: Stroke) -> str:
    """Every property on every element: one converter does not let a child reset what its group set."""
    dash = f' stroke-dasharray="{" ".join(f"{d:.6g}" for d in stroke.dash)}"' if stroke.dash else ""
    ends = f' stroke-linecap="{stroke.cap}" stroke-linejoin="{stroke.join}"'
    return f' stroke="{stroke.colour}" stroke-width="{_number(stroke.width)}"{dash}{ends}'


def path_data(run: Floats) -> str:
    """Segments end to end `(n, 4, 2)` as the data of a path, to a thousandth of a millimetre.

    What is no longer than that is left out; where nothing is longer there is no path.
    """
    return next(_data_of([run])) if len(run) else ""


def _data_of(runs: Sequence[Floats]) -> Iterator[str]:
    """The data of each of some runs, none of them empty: all are put into words in one go, as they are many."""
    if not runs:
        return
    points = np.concatenate(runs)
    for first, segments in runs_in_words(list(map(len, runs)), points, cubic.is_straight(points), _pairs):
        words, at = [], first
        for found in segments:
            if found[-1] != at or found.count(at) < len(found):
                words.append(("L" if len(found) == 1 else "C") + " ".join(found))
            at = found[-1]
        yield " ".join([f"M{first}", *words]) if words else ""


def _label(label: Label) -> str:
    x, y = _number(label.x), _number(label.y)
    anchor = f' text-anchor="{label.anchor}"' if label.anchor != "start" else ""
    anchor += ' font-weight="bold"' if label.bold else ""
    if label.angle % 360:
        anchor += f' transform="rotate({_number(label.angle)} {x} {y})"'
    at = f'x="{_in_cells(label) if label.tabular else x}" y="{y}" font-size="{_number(label.size)}"'
    return f'<text{_named(label)} {at}{anchor} fill="{label.colour}">{clean(label.text)}</text>'


def _in_cells(label: Label) -> str:
    """Where each letter of figures begins whose digits are all as wide: a digit stands in the middle of its cell."""
    starts, x = list[str](), label.x
    for letter in label.text:
        cell, own = (font.text_width(one, label.size, label.bold) for one in (font.in_cells(letter), letter))
        starts.append(_number(x + (cell - own) / 2))
        x += cell
    return " ".join(starts)


def _pairs(points: Floats) -> list[str]:
    """Points `(..., 2)` in words, as `_number` writes each of their coordinates: all in one go, as they are many."""
    values = points.ravel().tolist()
    text = "%.3f,%.3f " * (len(values) // 2) % tuple(values)
    for ending in _ENDINGS:
        text = text.replace(f"{ending},", ",").replace(f"{ending} ", " ")
    return (_MINUS_NOTHING.sub("0", text) if "-0" in text else text).split()


def _number(value: float) -> str:
    """Three places: a thousandth of a millimetre."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
