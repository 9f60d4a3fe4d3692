"""A lay as a picture: what the drawing needs to know, in plain outlines and words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.cloth.amount import in_metres, in_yards
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import CutPiece, same_outline
from draft.cloth.lay import Lay, Placement
from draft.cloth.needs import ClothNeed
from draft.cloth.remnant import Remnant
from draft.cloth.simplified import flipped
from draft.garment.garment import Garment, Piece
from draft.paper.drawing.sold import as_sold
from draft.paper.drawing.wording import ENGLISH, Wording, capitalised
from draft.paper.pictures.lay_drawing import ClothSide, LaidCloth, LaidPiece, LayPicture
from draft.paper.pictures.repeat_lines import repeat_lines


def group_picture(garment: Garment, group: Sequence[ClothNeed], wording: Wording = ENGLISH) -> LayPicture:
    """One diagram for sizes that are laid alike, drawn for the last of them, with what each of them needs."""
    cloth, lay = group[-1].cloth, group[-1].lay
    lengths = tuple(_need_words(need, wording) for need in group)
    names = wording.sizes([need.size for need in group])
    drawn = (wording.say("lay.drawn", size=group[-1].size),) if len(group) > 1 else ()
    above = (names, *_cloth_words(garment, cloth, lay, wording), *lengths, *drawn)
    kind = wording.say(f"lay.kind_{lay.folding.replace(' ', '_')}")
    return replace(_picture(garment, lay, cloth, above, wording, several=False), kind=kind)


def together_picture(garment: Garment, need: ClothNeed, wording: Wording = ENGLISH) -> LayPicture:
    """Several sizes or copies as one lay."""
    above = (*_cloth_words(garment, need.cloth, need.lay, wording), _need_words(need, wording))
    several = len({cut_piece.size for cut_piece in _cut_pieces(need.lay)}) > 1
    return _picture(garment, need.lay, need.cloth, above, wording, several)


def remnant_picture(garment: Garment, lay: Lay, remnant: Remnant, wording: Wording = ENGLISH) -> LayPicture:
    """Pieces on what is in the stash: several lengths, or an odd shape."""
    sizes = list(dict.fromkeys(cut_piece.size for cut_piece in _cut_pieces(lay)))
    above = (wording.sizes(sizes), wording.say("lay.open"))
    picture = _picture(garment, lay, Cloth(lay.width, ends=0.0), above, wording, several=len(sizes) > 1)
    cloth = LaidCloth(lay.width, lay.length, 0.0, (), True, remnant.outlines)
    return LayPicture(picture.title, picture.above, cloth, picture.pieces, picture.listed, picture.legend)


def _need_words(need: ClothNeed, wording: Wording) -> str:
    """How long the lay is and how much to buy, in the units of the reader's shop."""
    yards = in_yards(need.bought).removesuffix("yd") + wording.say("units.yard")
    metres = in_metres(need.bought).replace(".", wording.say("units.decimal"))
    both = wording.say("lay.need_both", yards=yards, metres=metres)
    amount = {"both": both, "in": yards, "cm": metres}[wording.units]
    return wording.say("lay.need", size=need.size, length=as_sold(need.lay.length, wording), amount=amount)


def _cloth_words(garment: Garment, cloth: Cloth, lay: Lay, wording: Wording) -> tuple[str, ...]:
    width = wording.say("lay.cloth", width=as_sold(cloth.width, wording))
    for named in garment.cloths:  # one: the garment is as one of its cloths sees it
        name = capitalised(wording.named(named.name))
        width = wording.say("lay.cloth_named", cloth=name, width=as_sold(cloth.width, wording))
    shrunk = (
        wording.say("lay.washed", width=as_sold(cloth.usable + 2 * cloth.selvedge, wording))
        if cloth.shrink_across
        else ""
    )
    way = wording.say("lay.one_way" if cloth.one_way else "lay.both_ways")
    how = wording.say(f"lay.{lay.folding.replace(' ', '_')}")
    return f"{width}{shrunk}; {way}", how


def _picture(
    garment: Garment, lay: Lay, on: Cloth, above: tuple[str, ...], wording: Wording, several: bool
) -> LayPicture:
    title = wording.say("lay.title", title=wording.titled(garment))
    moves, sides = _margins(lay, on.selvedge)
    lines = _repeats(lay, on, sides[-1][0], moves[0])
    opened = lay.folding == "open"
    cloth = LaidCloth(sides[-1][0], lay.length, on.ends, sides, opened, selvedge=on.selvedge, lines=lines)
    names = {number: wording.title(piece) for number, piece in enumerate(garment.pieces, start=1)}
    placements = (placement.shifted(moves[placement.strip]) for placement in lay.placements)
    pieces = tuple(_piece(placement, names, several) for placement in placements)
    return LayPicture(title, above, cloth, pieces, _listed(garment, lay, wording), _legend(pieces, on, wording))


def _repeats(lay: Lay, on: Cloth, width: float, moved: float) -> tuple[Floats, ...]:
    """The lines of striped or checked cloth `width` mm wide on the table, where anything is matched."""
    known = [cut_piece.repeat for cut_piece in _cut_pieces(lay) if cut_piece.repeat]
    if not known:
        return ()
    at = known[0].at + np.array([moved, 0.0])
    return repeat_lines(at, known[0].every, width, -on.ends, lay.length + on.ends)


def _margins(lay: Lay, free: float) -> tuple[tuple[float, ...], tuple[tuple[float, ClothSide], ...]]:
    """How far each strip moves for so many mm kept free along the selvedges, and the lines along the cloth then."""
    first = lay.strips[0]
    if lay.folding == "open":
        return (free,), ((0.0, "selvedge"), (first.width + 2 * free, "selvedge"))
    if lay.folding == "one fold":
        return (0.0,), ((0.0, "fold"), (first.width + free, "selvedge"))
    last = lay.strips[-1]
    return (0.0, 2 * free), ((0.0, "fold"), (last.left + free, "meeting"), (last.left + last.width + 2 * free, "fold"))


def _piece(placement: Placement, names: Mapping[int, str], several: bool) -> LaidPiece:
    cut_piece = placement.cut_piece
    ring = _half(placement) if placement.on_fold else placement.ring
    opened = None if cut_piece.opened is None else placement.move.points(cut_piece.opened)
    ends_alike = same_outline(cut_piece.ring, flipped(cut_piece.ring, 1, -1)) or same_outline(
        cut_piece.ring, flipped(cut_piece.ring, -1, -1)
    )
    up = 0 if ends_alike else placement.move.along
    opened = None if placement.on_fold else opened
    size = cut_piece.size if several else ""
    name, down = names[cut_piece.number], placement.move.face_down
    return LaidPiece(cut_piece.number, name, ring, down, up, opened, size, _meeting(placement))


def _meeting(placement: Placement) -> Floats | None:
    """Where a piece meets others on the lines of the cloth `(n, 2)`: on both sides, where it is alike on both."""
    cut_piece = placement.cut_piece
    if cut_piece.repeat is None or cut_piece.matched is None:
        return None
    points = cut_piece.matched.meets
    if cut_piece.fold is not None and not placement.on_fold:
        points = np.concatenate([points, points * (-1, 1) + (2 * cut_piece.fold, 0)])
    return placement.move.points(points)


def _half(placement: Placement) -> Floats:
    """The half of a piece that lies on the cloth, its other half being under the fold."""
    import shapely

    ring = placement.ring
    fold = float(placement.move.points(np.array([placement.cut_piece.fold or 0.0, 0.0]))[0])
    low, high = ring.min(axis=0), ring.max(axis=0)
    right = placement.move.across > 0
    side = shapely.box(fold if right else low[0], low[1], high[0] if right else fold, high[1])
    half = max(shapely.get_parts(shapely.Polygon(ring).intersection(side)), key=lambda part: float(part.area))
    return np.asarray(shapely.get_coordinates(half.exterior)[:-1])


def _cut_pieces(lay: Lay) -> list[CutPiece]:
    return list({(s.cut_piece.number, s.cut_piece.size): s.cut_piece for s in lay.placements}.values())


def _listed(garment: Garment, lay: Lay, wording: Wording) -> tuple[str, ...]:
    """The cutting list as this lay gives it."""
    lines = []
    for number, piece in enumerate(garment.pieces, start=1):
        if piece.cut:
            count = sum(cut_piece.count for cut_piece in _cut_pieces(lay) if cut_piece.number == number)
            edges = piece.edges if _on_fold(number, lay) else ()
            cut = wording.cut(replace(piece, cut=count, cuts=(), edges=edges))
            words = wording.say("lay.listed", number=number, piece=wording.title(piece), cut=cut[:1].lower() + cut[1:])
            lines.append(words + "".join(wording.say(f"lay.{more}") for more in _how(piece, number, lay)))
    return tuple(lines)


def _on_fold(number: int, lay: Lay) -> bool:
    """Whether any copy of a piece lies on a fold of the cloth."""
    return any(placement.on_fold for placement in lay.placements if placement.cut_piece.number == number)


def _how(piece: Piece, number: int, lay: Lay) -> list[str]:
    """What a maker must know of how this lay gives a piece, as keys of texts; nothing where that is plain."""
    on_fold = _on_fold(number, lay)
    spare = any(copy.spare for copy in lay.copies() if copy.cut_piece.number == number)
    told = {
        "opened_out": piece.on_fold and not on_fold,
        "folded_in_half": on_fold and not piece.on_fold,
        "spare": spare and lay.folding != "open",
    }
    return [key for key, is_so in told.items() if is_so]


def _legend(pieces: Sequence[LaidPiece], cloth: Cloth, wording: Wording) -> tuple[str, ...]:
    """What the signs of a diagram mean: only those that it has."""
    legend = [
        (any(piece.opened is not None for piece in pieces), wording.say("lay.opened")),
        (any(piece.face_down for piece in pieces), wording.say("lay.face_down")),
        (any(piece.up < 0 for piece in pieces), wording.say("lay.arrow")),
        (cloth.ends > 0, wording.say("lay.ends", length=wording.length(cloth.ends))),
        (any(piece.meets is not None for piece in pieces), wording.say("lay.repeat")),
        (cloth.selvedge > 0, wording.say("lay.selvedges", length=wording.length(cloth.selvedge))),
    ]
    return tuple(words for there, words in legend if there)
