"""The key of a pattern's signs: each that stands on its pieces, drawn small as it is there, beside what it means."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TypeAlias

from draft.garment.garment import Garment, Piece
from draft.garment.marks import BEFORE
from draft.geometry.cubic import lines_through
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Item, Label, Path, Stroke, circle
from draft.paper.drawing.flow import Flow, Type
from draft.paper.drawing.passage import Passage, said_as
from draft.paper.drawing.wording import Wording
from draft.paper.pages.signs_of_nests import signs_of_nest
from draft.paper.piece.clips import clips
from draft.paper.piece.fastenings import lies_in_hole
from draft.paper.piece.piece_lines import ShownLines, outlines_of
from draft.paper.piece.placing_lines import corners_of
from draft.paper.piece.takeups import FOLD_DASH, RING
from draft.seams.bare import is_bare
from draft.seams.parts_named import HALF, QUARTER

WIDE = 22.0
"""Of a sample, mm."""
_HIGH = 5.0
_BESIDE = 4.0
_APART = 0.9
_WORDS = Type(9.0)
_LETTER = Type(11.0, bold=True)

_Lines: TypeAlias = Sequence[Sequence[tuple[float, float]]]


def signs_of(garment: Garment, lines: ShownLines, bodies: Sequence[int]) -> tuple[str, ...]:
    """The names of the signs on the pieces of a garment for some bodies, in the order in which they are explained."""
    there = {sign for piece in garment.pieces for sign in _of_piece(piece)}
    there |= {"letter"} if garment.joins or garment.letters else set()
    there |= {"sew"} if lines == "both" else set()
    there |= {"cut"} if len(bodies) == 1 and lines != "sewing" else set()
    if len(bodies) > 1:
        there = {"pair" if one == "notches" else one for one in there - {"placement"}} | {"named"}
        there |= _placed(garment, bodies[0])
        there |= set(signs_of_nest(garment, bodies))
        there -= {"pleat"} if "pleats" in there else set()
    there |= {"clip"} if lines != "sewing" and _clipped(garment, bodies) else set()
    if is_bare(garment):  # then the line is no cutting line, and nothing is snipped beside it
        there = {_BARE.get(sign, sign) for sign in there} | {"bare"}
    return tuple(sign for sign in _SAMPLES if sign in there)


def _clipped(garment: Garment, bodies: Sequence[int]) -> bool:
    """Whether a clip mark stands on any piece."""
    sizes = [(garment.sizes[body], body) for body in bodies]
    return any(clips(one) for piece in garment.pieces for one in outlines_of(piece, sizes))


def _placed(garment: Garment, body: int) -> set[str]:
    """How a nest shows what is set on its pieces: outlines by their corners, other lines whole."""
    marks = [mark for piece in garment.pieces for mark in piece.marks]
    lines = [mark.points[body] for mark in marks if not (mark.line or mark.drill or mark.fastening)]
    return {"corners" if len(corners_of(line)) else "placement" for line in lines}


def _of_piece(piece: Piece) -> Iterator[str]:
    yield "grain"
    if piece.stretches:
        yield "stretch"
    if piece.on_fold:
        yield "fold"
    yield from ("notch" if notch.strokes == 1 else "notches" for notch in piece.notches)
    if any(notch.words or notch.ends is not None for notch in piece.notches):
        yield "worded"
    parts = {notch.part for notch in piece.notches if notch.part}
    if parts:
        yield "part" if QUARTER in parts else "half"
    if any(notch.meets and not (notch.words or notch.part) for notch in piece.notches):
        yield "met"
    yield from ("pleat" if takeup.to is None else "dart" for takeup in piece.takeups)
    yield from ("inner_dart" for _ in piece.inner_darts)
    if any(lies_in_hole(mark, piece) for mark in piece.marks):
        yield "button_in_hole"
    yield from (mark.fastening or ("drill" if mark.drill else _OF_LINE[mark.line]) for mark in piece.marks)


_OF_LINE = {"": "placement", "fold": "folded", "level": "level", "lengthen": "lengthen"}


def put_signs(flow: Flow, signs: Sequence[str], wording: Wording) -> None:
    """Each sign in a row of its own."""
    for sign in signs:
        texts = _texts(sign, flow, wording)
        high = _high(texts)
        first = high / 2 - _WORDS.line_height * (len(texts) - 1) / 2 + 0.36 * _WORDS.size
        words = [_WORDS.label(text, WIDE + _BESIDE, first + _WORDS.line_height * k) for k, text in enumerate(texts)]
        read = said_as(words, Passage("P", " ".join(texts)))
        flow.put([*_SAMPLES[sign](high / 2), *read], high + _APART)


def height(flow: Flow, signs: Sequence[str], wording: Wording) -> float:
    """How much room the signs take in a flow, mm."""
    return sum(_high(_texts(sign, flow, wording)) + _APART for sign in signs)


def _texts(sign: str, flow: Flow, wording: Wording) -> list[str]:
    said = wording.say(f"signs.{sign}", before=wording.length(BEFORE))
    return _WORDS.lines(said, flow.width - WIDE - _BESIDE)


def _high(texts: Sequence[str]) -> float:
    return max(_HIGH, _WORDS.line_height * len(texts))


def _moved(line: Sequence[tuple[float, float]], y: float) -> list[tuple[float, float]]:
    return [(x, down + y) for x, down in line]


def _straight(lines: _Lines, y: float, stroke: Stroke) -> Path:
    return Path(tuple(lines_through(_moved(line, y)) for line in lines), stroke)


def _whole(stroke: Stroke) -> Callable[[float], list[Item]]:
    return lambda y: [_straight([[(0, 0), (WIDE, 0)]], y, line_styles.evenly_dashed(stroke, WIDE))]


def _grain(y: float) -> list[Item]:
    sign = line_styles.sign_stroke()
    heads = [[(4.0, -1.4), (0.0, 0.0), (4.0, 1.4)], [(WIDE - 4, -1.4), (WIDE, 0.0), (WIDE - 4, 1.4)]]
    filled = tuple(lines_through(_moved(head, y), closed=True) for head in heads)
    return [_straight([[(3.2, 0), (WIDE - 3.2, 0)]], y, sign), Path(filled, fill=sign.colour, closed=True)]


def _stretch(y: float) -> list[Item]:
    heads = [[(4.0, -1.7), (0.0, 0.0), (4.0, 1.7)], [(WIDE - 4, -1.7), (WIDE, 0.0), (WIDE - 4, 1.7)]]
    return [_straight([[(0, 0), (WIDE, 0)], *heads], y, line_styles.sign_stroke())]


def _fold(y: float) -> list[Item]:
    line = line_styles.evenly_dashed(line_styles.FOLD, WIDE)
    legs: _Lines = [[(4.0, -1.8), (4.0, 1.4), (WIDE - 4.0, 1.4), (WIDE - 4.0, -1.8)]]
    return [_straight([[(0, 0), (WIDE, 0)]], y - 2.2, line), _straight(legs, y, line_styles.sign_stroke())]


def _notched(*at: float) -> Callable[[float], list[Item]]:
    def drawn(y: float) -> list[Item]:
        cut = _straight([[(0, 0), (WIDE, 0)]], y - 2.0, line_styles.cutting_stroke(0))
        return [cut, _straight([[(x, -2.0), (x, 2.2)] for x in at], y, line_styles.sign_stroke())]

    return drawn


def _pair(y: float) -> list[Item]:
    """A double notch of a nest, whose strokes a line joins."""
    tie = _straight([[(WIDE / 2 - 2.5, 2.2), (WIDE / 2 + 2.5, 2.2)]], y, Stroke(line_styles.FINE))
    return [*_notched(WIDE / 2 - 2.5, WIDE / 2 + 2.5)(y), tie]


def _said_at_notch(words: str) -> Callable[[float], list[Item]]:
    """A notch that bears the part of the way at which it lies, or the seam that ends there."""
    return lambda y: [*_notched(WIDE / 2)(y - 1.0), Label(words, WIDE / 2 + 2.0, y + 1.6, _WORDS.size)]


def _worded(y: float) -> list[Item]:
    """A notch with a word beside it, which no sample can tell: a stroke stands for it."""
    word = _straight([[(WIDE / 2 + 2.0, 0.8), (WIDE - 1.0, 0.8)]], y, Stroke(line_styles.FINE))
    return [*_notched(WIDE / 2)(y), word]


def _named(y: float) -> list[Item]:
    """A line of a size with its name on it, and a notch with its own below."""
    line = _straight([[(0, 0), (4.0, 0)], [(9.0, 0), (WIDE, 0)]], y - 1.0, line_styles.cutting_stroke(0))
    notch = _straight([[(15.0, 0.0), (15.0, 2.4)]], y - 1.0, line_styles.sign_stroke())
    on_line = Label("M", 6.5, y - 1.0 + 0.36 * _WORDS.size, _WORDS.size, "middle", bold=True)
    return [line, notch, on_line, Label("M", 16.2, y + 2.4, _WORDS.size)]


def _dart(y: float) -> list[Item]:
    legs = [[(2.0, -2.2), (WIDE - 4.0, 0.0)], [(2.0, 2.2), (WIDE - 4.0, 0.0)]]
    return [_straight(legs, y, Stroke(line_styles.FINE)), _ring(WIDE - 4.0, y)]


def _inner_dart(y: float) -> list[Item]:
    middle = WIDE / 2
    legs = [[(1.5, 0.0), (middle, at)] for at in (-2.2, 2.2)] + [
        [(WIDE - 1.5, 0.0), (middle, at)] for at in (-2.2, 2.2)
    ]
    return [_straight(legs, y, Stroke(line_styles.FINE)), _ring(1.5, y), _ring(WIDE - 1.5, y)]


def _ring(x: float, y: float) -> Path:
    return Path((circle(x, y, RING),), Stroke(line_styles.FINE))


def _pleat(y: float) -> list[Item]:
    sides: _Lines = [[(6.0, -2.4), (6.0, 2.4)], [(16.0, -2.4), (16.0, 2.4)]]
    arrow: _Lines = [[(6.0, 0.0), (16.0, 0.0)], [(13.5, -1.3), (16.0, 0.0), (13.5, 1.3)]]
    fine = Stroke(line_styles.FINE)
    return [
        _straight([*sides, *arrow], y, fine),
        _straight([[(11.0, -2.4), (11.0, 2.4)]], y, Stroke(line_styles.FINE, FOLD_DASH)),
    ]


def _ringed(radius: float, cross: float) -> Callable[[float], list[Item]]:
    def drawn(y: float) -> list[Item]:
        x = WIDE / 2
        lines = [lines_through([(x - cross, y), (x + cross, y)]), lines_through([(x, y - cross), (x, y + cross)])]
        return [Path((circle(x, y, radius), *lines), Stroke(line_styles.FINE))]

    return drawn


def _lengthen(y: float) -> list[Item]:
    return [_straight([[(0, -1.3), (WIDE, -1.3)], [(0, 1.3), (WIDE, 1.3)]], y, Stroke(line_styles.FINE))]


def _level(y: float) -> list[Item]:
    bars: _Lines = [[(1.0, 0.0), (WIDE - 1.0, 0.0)], [(WIDE / 2, -2.4), (WIDE / 2, 2.4)]]
    return [Path((circle(WIDE / 2, y, 1.6),), Stroke(line_styles.FINE)), _straight(bars, y, Stroke(line_styles.FINE))]


def _corners(y: float) -> list[Item]:
    """Two corners of an outline with the size of either within."""
    angles: _Lines = [[(x, 2.4), (x, -2.0), (x + leg, -2.0)] for x, leg in ((1.0, 6.0), (WIDE - 1.0, -6.0))]
    words = [Label("M", x, y + 1.6, _WORDS.size, "middle") for x in (4.0, WIDE - 4.0)]
    return [_straight(angles, y, Stroke(line_styles.FINE)), *words]


def _snap(y: float) -> list[Item]:
    return [Path((circle(WIDE / 2, y, 2.3), circle(WIDE / 2, y, 0.7)), Stroke(line_styles.FINE))]


def _buttonhole(y: float) -> list[Item]:
    bars: _Lines = [[(5.0, 0.0), (17.0, 0.0)], [(5.0, -1.8), (5.0, 1.8)], [(17.0, -1.8), (17.0, 1.8)]]
    return [_straight(bars, y, Stroke(line_styles.FINE))]


def _button_in_hole(y: float) -> list[Item]:
    """A buttonhole with the ring of its button, whose arms lie across the hole."""
    x, fine = 7.5, Stroke(line_styles.FINE)
    arms: _Lines = [[(x, -1.2), (x, -2.6)], [(x, 1.2), (x, 2.6)]]
    return [*_buttonhole(y), Path((circle(x, y, 1.2),), fine), _straight(arms, y, fine)]


def _sliding(y: float) -> list[Item]:
    """The line of a buttonhole with the strokes of three sizes."""
    strokes: _Lines = [[(x, -1.8), (x, 1.8)] for x in (5.0, 7.5, 10.0)]
    return [_straight([[(3.5, 0.0), (17.0, 0.0)], *strokes], y, Stroke(line_styles.FINE))]


def _clip(y: float) -> list[Item]:
    cut = _straight([[(0, 0), (WIDE, 0)]], y - 2.2, line_styles.cutting_stroke(0))
    seam: _Lines = [[(2.0, 0.0), (WIDE / 2, 2.6), (WIDE - 2.0, 0.0)]]
    snip = _straight([[(WIDE / 2, -2.2), (WIDE / 2, 1.8)]], y, line_styles.sign_stroke())
    return [cut, _straight(seam, y, line_styles.sewing_stroke(0)), snip]


def _letter(y: float) -> list[Item]:
    return [Label("A", WIDE / 2, y + 0.36 * _LETTER.size, _LETTER.size, "middle", bold=True)]


def _bare(y: float) -> list[Item]:
    seam = _straight([[(0, 0), (WIDE, 0)]], y + 1.2, line_styles.cutting_stroke(0))
    return [seam, _straight([[(0, 0), (WIDE, 0)]], y - 1.8, Stroke(line_styles.FINE, (0.01, 1.4), cap="round"))]


_BARE = {"cut": "bare", "notch": "notch_bare"}

_Sample: TypeAlias = Callable[[float], list[Item]]

_SAMPLES: dict[str, _Sample] = {
    "cut": _whole(line_styles.cutting_stroke(0)),
    "bare": _bare,
    "sew": _whole(line_styles.sewing_stroke(0)),
    "fold": _fold,
    "middle": _whole(line_styles.MIDDLE),
    "grain": _grain,
    "stretch": _stretch,
    "letter": _letter,
    "named": _named,
    "notch": _notched(WIDE / 2),
    "notch_bare": _notched(WIDE / 2),
    "notches": _notched(WIDE / 2 - 2.5, WIDE / 2 + 2.5),
    "pair": _pair,
    "worded": _worded,
    "part": _said_at_notch(HALF),
    "half": _said_at_notch(HALF),
    "met": _said_at_notch("A"),
    "clip": _clip,
    "dart": _dart,
    "inner_dart": _inner_dart,
    "pleat": _pleat,
    "pleats": _notched(6.0, 16.0),
    "folded": _whole(Stroke(line_styles.FINE, line_styles.FOLD.dash)),
    "level": _level,
    "lengthen": _lengthen,
    "drill": _ringed(1.6, 2.4),
    "placement": _whole(Stroke(line_styles.FINE, (5.0, 1.2, 1.2, 1.2))),
    "corners": _corners,
    "button": _ringed(2.3, 2.3),
    "buttonhole": _buttonhole,
    "button_in_hole": _button_in_hole,
    "sliding": _sliding,
    "snap": _snap,
}
"""How each sign is drawn about a height on its row; signs are explained in this order."""
