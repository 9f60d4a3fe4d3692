"""Joined edges are of one length, or of the declared ratio where one is stretched to the other."""

from __future__ import annotations

import numpy as np

from draft.base.naming import listed
from draft.base.notes import Note, error
from draft.base.plainly import AGAIN, mm, of_sizes
from draft.base.worst import worst_of
from draft.garment.garment import Garment, Join, SidePart
from draft.seams.middles import SideParts, in_middle, side_ends
from draft.seams.sections import sections_of
from draft.seams.sides import side
from draft.seams.walk import Walked, walk_seams

TOLERANCE = 0.5  # mm: half of what a careful cutter can follow
MUCH = 20.0  # times: no cloth is gathered so much
HALF = 0.03  # so near to twice the other, a side is likely missing a half
CLOSE, SNUG = 0.6, 0.98  # shares: what a band is stretched by (common practice)


def check(garment: Garment) -> list[Note]:
    """A note for each join whose sides do not fit."""
    return [_note(garment, walked) for walked in walk_seams(garment) if not fits(walked)]


def fits(walked: Walked) -> bool:
    """Whether a join fits for every body."""
    return bool(np.all(np.abs(walked.difference) <= TOLERANCE))


def _note(garment: Garment, walked: Walked) -> Note:
    off = np.abs(walked.difference)
    worst = worst_of(off)
    join = walked.join
    fact = f"the two sides of `{join.name}` do not fit, for {listed(garment.sizes, off > TOLERANCE)}"
    first, second = (_named(side) for side in (join.first, join.second))
    verb = "is" if len(join.first) == 1 else "are"
    more = "long" if walked.difference[worst] > 0 else "short"
    figures = f"at worst {first} {verb} {off[worst]:.1f} mm too {more} ({garment.sizes[worst]}): "
    if join.ratio is None:
        figures += f"{walked.first[worst]:.1f} mm is sewn to {walked.second[worst]:.1f} mm"
    else:
        wanted = f"{walked.wanted[worst]:.1f} mm is wanted for {walked.second[worst]:.1f} mm"
        figures += f"{walked.first[worst]:.1f} mm, where {wanted} of {second}"
    hints = [*_where(garment, join, worst), *_likely(garment, walked, worst)]
    plainly = of_sizes("seam_does_not_fit", garment.sizes, off > TOLERANCE, AGAIN, seam=join.name, off=mm(off[worst]))
    return error(fact, join.span, figures, *hints, off=np.where(off > TOLERANCE, off, 0.0), plainly=plainly)


def _likely(garment: Garment, walked: Walked, body: int) -> list[str]:
    """What is often forgotten, where the lengths look like it."""
    share = float(walked.first[body] / max(walked.wanted[body], 1e-9))
    join = walked.join
    if max(share, 1 / max(share, 1e-9)) > MUCH:
        return ["is a `%` missing? A share is written `85 %`"]
    if min(abs(share - 2), abs(1 / max(share, 1e-9) - 2)) < HALF:
        if layered := _of_two_layers(garment, join):
            return [layered]
        return _of_a_half(garment, join, *((join.second, join.first) if share > 1 else (join.first, join.second)))
    if join.ratio is None and CLOSE < share < SNUG and len(join.first) < len(join.second):
        return [f"or stretch the first side to the second: add `, stretched {100 * share:.0f} %`"]
    return []


def _of_a_half(garment: Garment, join: Join, shorter: SideParts, longer: SideParts) -> list[str]:
    """Fixes where one side is twice the other: it lacks a half, or the half has its other side in no seam yet."""
    names = " or ".join(dict.fromkeys(f"`{part.piece}`" for part in shorter))
    found = [f"one side is twice the other: does {names} lack an edge `on fold`, or is it cut too seldom?"]
    part = longer[0]
    apart = not any(in_middle(garment, corner) for corner in side_ends(garment, longer))
    twice = side(garment, longer).copies == 2 * side(garment, shorter).copies
    if len(longer) == 1 and apart and twice:
        found.append(f"or declare the seam of the other `{part.edge}` of `{part.piece}`, if another is sewn there")
    return found


def _of_two_layers(garment: Garment, join: Join) -> str:
    """A fix where a piece that is cut twice, as collars and waistbands are, is sewn on as if both went side by side."""
    sides = sorted((join.first, join.second), key=lambda parts: side(garment, parts).copies)
    few, many = (side(garment, parts) for parts in sides)
    names = {each.piece.name for each in many.edges}
    piece = many.edges[0].piece
    if many.copies != 2 * few.copies or len(names) != 1 or piece.layers or piece.cut % 2:
        return ""
    of = f" of {piece.cuts[0].cloth}" if piece.cuts else ""
    half = piece.cut // 2
    lines = f"`cut {half}{of} as outside, {half}{of} as inside`"
    return f"if two layers of `{piece.name}` are sewn on as one, write {lines}"


def _where(garment: Garment, join: Join, body: int) -> list[str]:
    """Where along the join its sides differ most, where notches or the ends of edges tell."""
    found = sections_of(garment, join, by_share=False)
    if len(found) == 1:
        return []
    most = max(found, key=lambda section: float(abs(section.difference[body])))
    longer = "longer" if most.difference[body] > 0 else "shorter"
    begins, ends = (f"the {what}" if what in ("start", "end") else what for what in (most.begins, most.ends))
    off = f"{abs(most.difference[body]):.1f} mm {longer}"
    return [f"most of that lies from {begins} to {ends}: there the first side is {off}"]


def _named(parts: tuple[SidePart, ...]) -> str:
    layer = f"{parts[0].layer} " if parts[0].layer else ""
    return " and ".join(f"`{layer}{part.piece}.{part.edge}`" for part in parts)
