"""The peak of a trued dart: the edge between the legs, drawn so that it ends where the cloth does that it lies on.

The cloth between straight legs is folded over along a line. Between bowed legs it is folded over along the seam: what
lies so far beside a leg on one side of it comes to lie as far beside it on the other, square to it. Of a dart that is
bowed to one side the cloth between the legs lies flat no way at all, and is cut away by the maker: that is drawn as
between straight legs.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.crossing import edge_meets_line
from draft.geometry.cubic import dot, line, reverse, start_tangent, unit
from draft.geometry.dart_leg import leg as leg_of
from draft.geometry.length import length, point_at, tangent_at
from draft.geometry.motion import mirrored_over, turned_about
from draft.geometry.nearest import nearest_place
from draft.geometry.part import part_along
from draft.geometry.spline import hobby

PLACES = 9  # of what is folded over along a bowed seam: the curve between them is off by hundredths of a mm


@dataclass(frozen=True)
class Shutting:
    """How a dart is shut at its edge: what lies behind it turns `about` a point `(B, 2)` by rad `(B,)`.

    There its first leg runs through `on` in the direction `leg`, and its middle through `middle` along unit vectors
    `axis`: `(B, 2)` each, outwards.
    """

    about: Floats
    turn: Floats
    on: Floats
    leg: Floats
    middle: Floats
    axis: Floats


def straight_peak(shut: Shutting, before: Floats, behind: Floats, pressed: Floats | None) -> Floats:
    """The edge `(B, S, 4, 2)` between two straight legs.

    It lies on what is `before`, or `behind` and shut onto that. Pressed towards the end of the edge, `pressed` 1, the
    cloth that goes on past the first leg lies on what is behind as it is; pressed towards the start it lies folded over
    on what is before.
    """
    half = _half(reverse(mirrored_over(before, shut.on, unit(shut.leg))), shut)
    if pressed is not None:
        half = _where(pressed, _half(behind, shut), half)
    return _doubled(half, shut)


def bowed_peak(
    shut: Shutting, before: Floats, behind: Floats, pressed: Floats | None, to: Floats, bow: Floats
) -> Floats:
    """The edge between two legs to the point `to` `(B, 2)`, bowed towards one another by `bow` mm `(B,)`."""
    leg = leg_of(before[:, -1, 3], to, bow, _across(shut, before))
    most = 3 * np.abs(dot(before[:, -1, 3] - shut.middle, _aside(shut.axis)))
    lies_on = reverse(before)
    if pressed is not None:
        opened = turned_about(behind, shut.about, -shut.turn)
        lies_on = _where(pressed, *_alike(mirrored_over(opened, shut.middle, shut.axis), lies_on))
    return _doubled(_half(folded_along(lies_on, leg, most), shut), shut)


def folded_along(path: Floats, leg: Floats, most: Floats) -> Floats:
    """A path `(B, S, 4, 2)` that begins where a leg `(B, 4, 2)` does, folded over along that for `most` mm `(B,)`.

    Beyond its beginning the leg goes on straight.
    """
    most = np.minimum(most, length(path))
    out = -start_tangent(leg)
    crease = np.stack([line(leg[:, 0] + most[:, None] * out, leg[:, 0]), leg], axis=1)
    knots = [leg[:, 0]]
    for share in np.linspace(0.0, 1.0, PLACES)[1:]:
        there = point_at(path, share * most)
        knots.append(2 * point_at(crease, nearest_place(crease, there)[0]) - there)
    way = tangent_at(path, np.zeros(len(path)))
    first = 2 * dot(way, out)[:, None] * out - way
    return hobby(np.stack(knots, axis=1), [first, *[None] * (PLACES - 1)])


def _across(shut: Shutting, before: Floats) -> Floats:
    """From the first leg to the middle, where the edge is: `(B, 2)`."""
    away, aside = shut.middle - before[:, -1, 3], _aside(shut.axis)
    return dot(away, aside)[:, None] * aside


def _aside(way: Floats) -> Floats:
    return np.stack([-way[:, 1], way[:, 0]], axis=-1)


def _half(lies_on: Floats, shut: Shutting) -> Floats:
    """From the first leg to the dart's axis, a path from that leg on; straight where it is too short."""
    _, reach, ok = edge_meets_line(lies_on, shut.middle, shut.axis)
    start = lies_on[:, 0, 0]
    along = dot(start - shut.middle, shut.axis)[:, None] * shut.axis + shut.middle
    return np.where(
        ok[:, None, None, None], part_along(lies_on, np.zeros_like(reach), reach), _straight(start, along, lies_on)
    )


def _doubled(half: Floats, shut: Shutting) -> Floats:
    """Both halves of a peak: of one and its mirror image the legs are sewn together."""
    return np.concatenate([half, reverse(mirrored_over(half, shut.middle, shut.axis))], axis=1)


def _alike(one: Floats, other: Floats) -> tuple[Floats, Floats]:
    """Two paths in as many segments each: what is missing has no length."""
    most = max(one.shape[1], other.shape[1])

    def filled(path: Floats) -> Floats:
        end = np.broadcast_to(path[:, -1:, 3:4], (len(path), most - path.shape[1], 4, 2))
        return np.concatenate([path, end], axis=1)

    return filled(one), filled(other)


def _where(pressed: Floats, to_end: Floats, to_start: Floats) -> Floats:
    return np.where(pressed[:, None, None, None] > 0, to_end, to_start)


def _straight(start: Floats, end: Floats, like: Floats) -> Floats:
    """A line `(B, S, 4, 2)` in as many segments as another path; all but the first have no length."""
    rest = np.broadcast_to(end[:, None, None], (len(end), like.shape[1] - 1, 4, 2))
    return np.concatenate([line(start, end)[:, None], rest], axis=1)
