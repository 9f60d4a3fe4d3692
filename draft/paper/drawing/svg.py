"""SVG: a drawing as text that opens true to size in a browser, an editor or a projector."""

from __future__ import annotations

import re
from html import escape

from draft.base.arrays import Floats
from draft.geometry import cubic
from draft.paper.drawing import font
from draft.paper.drawing.drawing import Drawing, Item, Label, Layer, Path, Stroke

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
    items = "\n".join(filter(None, map(item_svg, layer.items)))
    return f'<g id="{identity(layer.name)}"{attributes}>\n{items}\n</g>'


def item_svg(item: Item) -> str:
    """One item as an element."""
    attributes = f' id="{identity(item.id)}"' if item.id else ""
    attributes += "".join(f' data-{name}="{clean(value)}"' for name, value in item.data)
    return _path(item, attributes) if isinstance(item, Path) else _label(item, attributes)


def _path(path: Path, attributes: str) -> str:
    drawn = [data for data in map(path_data, path.runs) if data]
    if not drawn:
        return ""
    d = " ".join(data + (" Z" if path.closed else "") for data in drawn)
    fill = path.fill or "none"
    return f'<path{attributes} d="{d}" fill="{fill}"{_stroke(path.stroke) if path.stroke else ""}/>'


def _stroke(stroke: Stroke) -> str:
    """Every property on every element: one converter does not let a child reset what its group set."""
    dash = f' stroke-dasharray="{" ".join(f"{d:.6g}" for d in stroke.dash)}"' if stroke.dash else ""
    ends = f' stroke-linecap="{stroke.cap}" stroke-linejoin="{stroke.join}"'
    return f' stroke="{stroke.colour}" stroke-width="{_number(stroke.width)}"{dash}{ends}'


def path_data(run: Floats) -> str:
    """Segments end to end `(n, 4, 2)` as the data of a path, to a thousandth of a millimetre.

    What is no longer than that is left out; where nothing is longer there is no path.
    """
    if not len(run):
        return ""
    points, words = _pairs(run), []
    at = points[0]
    for k, is_line in enumerate(cubic.is_straight(run).tolist()):
        found = points[4 * k + 3 : 4 * k + 4] if is_line else points[4 * k + 1 : 4 * k + 4]
        if any(point != at for point in found):
            words.append(("L" if is_line else "C") + " ".join(found))
        at = found[-1]
    return " ".join([f"M{points[0]}", *words]) if words else ""


def _label(label: Label, attributes: str) -> str:
    at = f'x="{_number(label.x)}" y="{_number(label.y)}" font-size="{_number(label.size)}"'
    anchor = f' text-anchor="{label.anchor}"' if label.anchor != "start" else ""
    weight = ' font-weight="bold"' if label.bold else ""
    turn = f"{_number(label.angle)} {_number(label.x)} {_number(label.y)}"
    turned = f' transform="rotate({turn})"' if label.angle % 360 else ""
    return f'<text{attributes} {at}{anchor}{weight}{turned} fill="{label.colour}">{clean(label.text)}</text>'


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
