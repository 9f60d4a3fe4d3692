"""A layout as a picture: what the drawing needs to know, in plain outlines and words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.cloth.amount import in_metres, in_yards
from draft.cloth.bolt import Cloth
from draft.cloth.layout import Layout, Spot
from draft.cloth.needs import Need
from draft.cloth.parts import Part, alike
from draft.cloth.remnant import Remnant
from draft.cloth.simplified import flipped
from draft.garment.garment import Garment, Piece
from draft.paper.drawing.wording import ENGLISH, Wording
from draft.paper.pictures.lay_drawing import LaidCloth, LaidPiece, Lay, Side


def group_picture(garment: Garment, group: Sequence[Need], wording: Wording = ENGLISH) -> Lay:
    """One diagram for sizes that are laid alike, drawn for the last of them, with what each of them needs."""
    cloth, layout = group[-1].cloth, group[-1].layout
    lengths = tuple(_need_words(need, wording) for need in group)
    names = wording.sizes([need.size for need in group])
    drawn = (wording.say("lay.drawn", size=group[-1].size),) if len(group) > 1 else ()
    above = (names, *_cloth_words(cloth, layout, wording), *lengths, *drawn)
    return _picture(garment, layout, cloth.ends, above, wording, several=False)


def together_picture(garment: Garment, need: Need, wording: Wording = ENGLISH) -> Lay:
    """Several sizes or copies as one lay."""
    above = (*_cloth_words(need.cloth, need.layout, wording), _need_words(need, wording))
    several = len({part.size for part in _parts(need.layout)}) > 1
    return _picture(garment, need.layout, need.cloth.ends, above, wording, several)


def remnant_picture(garment: Garment, layout: Layout, remnant: Remnant, wording: Wording = ENGLISH) -> Lay:
    """Pieces on what is in the stash: several lengths, or an odd shape."""
    sizes = list(dict.fromkeys(part.size for part in _parts(layout)))
    above = (wording.sizes(sizes), wording.say("lay.open"))
    lay = _picture(garment, layout, 0.0, above, wording, several=len(sizes) > 1)
    cloth = LaidCloth(layout.width, layout.length, 0.0, (), True, remnant.outlines)
    return Lay(lay.title, lay.above, cloth, lay.pieces, lay.listed, lay.marks)


def _need_words(need: Need, wording: Wording) -> str:
    """How long the lay is and how much to buy, in the units of the reader's shop."""
    yards = in_yards(need.bought).removesuffix("yd") + wording.say("units.yard")
    metres = in_metres(need.bought).replace(".", wording.say("units.decimal"))
    both = wording.say("lay.need_both", yards=yards, metres=metres)
    amount = {"both": both, "in": yards, "cm": metres}[wording.units]
    return wording.say("lay.need", size=need.size, length=wording.length(need.length), amount=amount)


def _cloth_words(cloth: Cloth, layout: Layout, wording: Wording) -> tuple[str, ...]:
    width = wording.say("lay.cloth", width=wording.length(cloth.width))
    shrunk = wording.say("lay.washed", width=wording.length(cloth.usable)) if cloth.shrink_across else ""
    way = wording.say("lay.one_way" if cloth.one_way else "lay.both_ways")
    how = wording.say(f"lay.{layout.kind.replace(' ', '_')}")
    return f"{width}{shrunk}; {way}", how


def _picture(
    garment: Garment, layout: Layout, ends: float, above: tuple[str, ...], wording: Wording, several: bool
) -> Lay:
    title = wording.say("lay.title", title=wording.named(garment.title))
    width = max(strip.left + strip.width for strip in layout.strips)
    cloth = LaidCloth(width, layout.length, ends, _sides(layout), layout.kind == "open")
    names = {number: wording.title(piece) for number, piece in enumerate(garment.pieces, start=1)}
    pieces = tuple(_piece(spot, names, several) for spot in layout.spots)
    return Lay(title, above, cloth, pieces, _listed(garment, layout, wording), _marks(pieces, ends, wording))


def _sides(layout: Layout) -> tuple[tuple[float, Side], ...]:
    first = layout.strips[0]
    if layout.kind == "open":
        return (0.0, "selvedge"), (first.width, "selvedge")
    if layout.kind == "one fold":
        return (0.0, "fold"), (first.width, "selvedge")
    last = layout.strips[-1]
    return (0.0, "fold"), (last.left, "meeting"), (last.left + last.width, "fold")


def _piece(spot: Spot, names: Mapping[int, str], several: bool) -> LaidPiece:
    part = spot.part
    ring = _half(spot) if spot.on_fold else spot.ring
    opened = float(spot.move.points(np.array([part.fold or part.width / 2, 0.0]))[0]) if part.folded else None
    ends_alike = alike(part.ring, flipped(part.ring, 1, -1)) or alike(part.ring, flipped(part.ring, -1, -1))
    up = 0 if ends_alike else spot.move.along
    opened = None if spot.on_fold else opened
    size = part.size if several else ""
    return LaidPiece(part.number, names[part.number], ring, spot.move.face_down, up, opened, size)


def _half(spot: Spot) -> Floats:
    """The half of a piece that lies on the cloth, its other half being under the fold."""
    import shapely

    ring = spot.ring
    fold = float(spot.move.points(np.array([spot.part.fold or 0.0, 0.0]))[0])
    low, high = ring.min(axis=0), ring.max(axis=0)
    right = spot.move.across > 0
    side = shapely.box(fold if right else low[0], low[1], high[0] if right else fold, high[1])
    half = max(shapely.get_parts(shapely.Polygon(ring).intersection(side)), key=lambda part: float(part.area))
    return np.asarray(shapely.get_coordinates(half.exterior)[:-1])


def _parts(layout: Layout) -> list[Part]:
    return list({(s.part.number, s.part.size): s.part for s in layout.spots}.values())


def _listed(garment: Garment, layout: Layout, wording: Wording) -> tuple[str, ...]:
    """The cutting list as this lay gives it."""
    lines = []
    for number, piece in enumerate(garment.pieces, start=1):
        if piece.cut:
            count = sum(part.count for part in _parts(layout) if part.number == number)
            cut = wording.cut(replace(piece, cut=count, edges=() if layout.kind == "open" else piece.edges))
            words = wording.say("lay.listed", number=number, piece=wording.title(piece), cut=cut[:1].lower() + cut[1:])
            more = _how(piece, number, layout)
            lines.append(words + (wording.say(f"lay.{more}") if more else ""))
    return tuple(lines)


def _how(piece: Piece, number: int, layout: Layout) -> str:
    """What a maker must know of how this lay gives a piece, as the key of a text; empty where that is plain."""
    if layout.kind == "open":
        return "opened_out" if piece.on_fold else ""
    if any(spot.on_fold for spot in layout.spots if spot.part.number == number) and not piece.on_fold:
        return "folded_in_half"
    return "spare" if any(copy.spare for copy in layout.copies() if copy.part.number == number) else ""


def _marks(pieces: Sequence[LaidPiece], ends: float, wording: Wording) -> tuple[str, ...]:
    """What the marks of a diagram mean: only those that it has."""
    marks = [
        (any(piece.opened is not None for piece in pieces), wording.say("lay.opened")),
        (any(piece.face_down for piece in pieces), wording.say("lay.face_down")),
        (any(piece.up < 0 for piece in pieces), wording.say("lay.arrow")),
        (ends > 0, wording.say("lay.ends", length=wording.length(ends))),
    ]
    return tuple(words for there, words in marks if there)
