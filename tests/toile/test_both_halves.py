"""Garments whose sides differ: told piece by piece, laid on both sides, and as halves that do not differ otherwise."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from draft.base.notes import Source, Span
from draft.form.dress_form import form_of
from draft.form.field import Field, field_of
from draft.form.landmarks import landmarks_of
from draft.garment.garment import Garment, Join, SidePart
from draft.toile.both_halves import sides_differ, told_whole
from draft.toile.dressed import Dressed
from draft.toile.dressing import dress
from draft.toile.sewing_up import sew
from draft.toile.trunk_laid import laid_flat
from draft.toile.why_not import CannotDress
from tests.asking import bundled
from tests.toile.dressed_up import COARSE, worn

SIDE_NECK = 70.0


@cache
def jacket() -> Garment:
    return bundled("breakwater", "M").garment


def test_only_a_wrap_jacket_has_sides_that_differ() -> None:
    names = ("marlpit", "tidemill", "netloft", "ropewalk", "roundhouse", "lockside", "hooded", "breakwater")
    assert [name for name in names if sides_differ(bundled(name, "M").garment, 0)] == ["breakwater"]


def test_each_seam_is_sewn_on_its_side() -> None:
    whole = told_whole(jacket(), 0)
    sewn = {join.name: {part.piece for part in (*join.first, *join.second)} for join in whole.garment.joins}
    assert sewn["right_side"] == {"right_front", "back_right_half"}
    assert sewn["left_shoulder"] == {"left_front", "back_left_half"}
    assert sewn["back_fold"] == {"back_left_half", "back_right_half"}
    assert whole.sides["back_right_half"] == -1


def test_a_band_round_both_halves_is_sewn_there_and_back() -> None:
    """Tidemill's neckband begins behind: along the left half to the front, and along the right half back."""
    whole = told_whole(bundled("tidemill", "M").garment, 0)
    neck = next(join for join in whole.garment.joins if join.name == "neck")
    there = neck.second if len(neck.first) == 1 else neck.first
    half = len(there) // 2
    assert all("left" in part.piece for part in there[:half])
    back = [(part.piece.replace("right", "left"), part.edge, not part.reverse) for part in reversed(there[half:])]
    assert back == [(part.piece, part.edge, part.reverse) for part in there[:half]]


def test_a_front_cut_once_tells_its_sides_by_where_its_edges_lie() -> None:
    """Without a word for left or right: an edge right of the middle, as one looks at the front, is on the left."""
    left = jacket().piece("left_front")
    front = replace(left, name="front", edges=tuple(replace(e, name=e.name.replace("right_", "")) for e in left.edges))
    span = Span(Source("front.piece", ""), 0, 0)
    far = max(front.edges, key=lambda edge: float(edge.segments[0, :, :, 0].mean())).name
    join = Join(span, "seam", (SidePart("front", far),), (SidePart("back", "underarm"),))
    whole = told_whole(replace(jacket(), pieces=(front, jacket().piece("back")), joins=(join,)), 0)
    assert {part.piece for part in whole.garment.joins[0].second} == {"back_left_half"}


def test_the_right_half_lies_on_the_right() -> None:
    sewn = sew(jacket(), 0, COARSE)
    flat = laid_flat(sewn, SIDE_NECK)
    lies = {name: flat.places[sewn.piece_of_vertex == k] for k, name in enumerate(sewn.pieces)}
    assert lies["back_left_half"][:, 0].min() == pytest.approx(0.0, abs=1e-9)
    assert lies["back_right_half"] == pytest.approx(lies["back_left_half"] * [-1, 1], abs=1.0)
    assert lies["right_front"][:, 0].max() == pytest.approx(130.0, abs=1.0)  # how far it crosses the middle
    assert lies["left_front"][:, 0].min() == pytest.approx(-80.0, abs=1.0)
    assert sewn.hangs_open and not sewn.halved
    assert flat.under_arm[:, 1].max() < -200.0


def test_a_whole_garment_of_like_halves_sits_as_its_half() -> None:
    """Tidemill with both halves: hem within 1 mm and strain within 0.004 of half of it, and left as right."""
    name = "tidemill"
    half = worn(name)
    drafted = bundled(name, "M")
    form = form_of(drafted.bodies)
    assert form is not None
    at = cache(lambda angle: _field(form, angle))
    cloth = drafted.garment.cloth
    sewn = sew(drafted.garment, 0, COARSE, whole=True)
    stretch = cloth["stretch_across"], cloth.get("stretch_down", cloth["stretch_across"] / 2)
    found = dress(sewn, at, landmarks_of(form, 0), stretch, float(np.radians(50.0)), ("down",))
    assert isinstance(found, Dressed)
    for end, height in half.hem["down"].items():
        assert found.hem["down"][end] == pytest.approx(height, abs=1.0)
    ends = [np.percentile(one.states["down"].across[one.sewn.layers < 1.5], [50, 90, 98]) for one in (half, found)]
    assert ends[0] == pytest.approx(ends[1], abs=0.004)
    x, across = found.states["down"].positions, found.states["down"].across
    middle = x[sewn.merged[sewn.triangles]].mean(axis=1)
    left, right = across[middle[:, 0] > 20.0], across[middle[:, 0] < -20.0]
    assert left.mean() == pytest.approx(right.mean(), abs=0.001)
    assert x[:, 0].min() == pytest.approx(-x[:, 0].max(), abs=6.0)


def _field(form: object, angle: float) -> Field:
    return field_of(form, 0, angle)  # type: ignore[arg-type]


def test_a_seam_that_may_lie_on_either_side_is_refused() -> None:
    left = jacket().piece("left_front")
    front = replace(left, name="front")
    names = [edge.name for edge in sorted(front.edges, key=lambda edge: float(edge.segments[0, :, :, 0].mean()))]
    span = Span(Source("front.piece", ""), 0, 0)
    edges = tuple(replace(edge, name=edge.name.replace("right_", "").replace("left_", "")) for edge in front.edges)
    plain = [name.replace("right_", "").replace("left_", "") for name in (names[0], names[-1])]
    join = Join(span, "seam", tuple(SidePart("front", name) for name in plain), (SidePart("back", "underarm"),))
    garment = replace(jacket(), pieces=(replace(front, edges=edges), jacket().piece("back")), joins=(join,))
    with pytest.raises(CannotDress, match="why_sides_differ"):
        told_whole(garment, 0)
