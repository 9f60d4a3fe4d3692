"""Pieces as one mesh: their area, both sides of every seam, and what is refused."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.geometry.area import outline_areas
from draft.toile.chosen_panels import chosen
from draft.toile.mesher import least_angle, mesh
from draft.toile.sewing_up import layers_of, merge, sew
from draft.toile.sewn import Sewn
from draft.toile.trunk_laid import laid_flat
from draft.toile.why_not import CannotDress
from tests.asking import bundled, shelf

KNIT = [
    ("marlpit", {}),
    ("marlpit", {"neckline": "vee", "sleeve": "long"}),
    ("marlpit", {"neckline": "boat", "sleeve": "cap", "hem_at": "tunic"}),
    ("marlpit", {"neckline": "crew", "sleeve": "three_quarter", "hem_at": "waist"}),
    ("tidemill", {}),
    ("netloft", {}),
    ("ropewalk", {}),
    ("roundhouse", {}),
    ("hooded", {}),
]
STEP = 24.0


@cache
def meshed(number: int, body: int = 0, edge_length: float = STEP) -> Sewn:
    name, styles = KNIT[number]
    return sew(bundled(name, **styles).garment, body, edge_length)


def areas(sewn: Sewn) -> Floats:
    p = sewn.rest[sewn.triangles]
    first, second = p[:, 1] - p[:, 0], p[:, 2] - p[:, 0]
    return np.asarray((first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0]) / 2)


@pytest.mark.parametrize("number", range(len(KNIT)))
def test_no_triangle_is_flipped_or_thin(number: int) -> None:
    sewn = meshed(number)
    assert areas(sewn).min() > 0.05 * STEP**2
    assert least_angle(sewn.rest, sewn.triangles) > 18.0


@pytest.mark.parametrize("number", range(len(KNIT)))
def test_area_is_that_of_the_cloth(number: int) -> None:
    """A piece's is its outline's without its darts; of a folded strip half is meshed, twice as thick."""
    name, styles = KNIT[number]
    garment, sewn = bundled(name, **styles).garment, meshed(number, edge_length=8.0)
    found = np.bincount(sewn.piece_of_triangle, areas(sewn))
    for k, piece_name in enumerate(sewn.pieces):
        piece = garment.piece("skirt" if piece_name.startswith("skirt_") else piece_name)
        whole = abs(float(outline_areas(np.concatenate([e.segments for e in piece.edges], axis=1))[0]))
        darts = sum(float(t.width[0]) for t in piece.takeups) * 50.0
        if sewn.roles[k] == "band":
            share = 4 if piece.cut == 1 else 2
            assert found[k] <= whole / share * 1.01
            assert found[k] > 0.85 * whole / share
        elif not darts:
            assert found[k] == pytest.approx(whole, rel=2e-3)
        else:
            assert 0 < whole - found[k] < darts * 1.6


@pytest.mark.parametrize("number", range(len(KNIT)))
def test_seams_meet_vertex_by_vertex(number: int) -> None:
    """Sewn vertices are one, no two triangles are, and the outline that is left is where nothing is sewn."""
    sewn = meshed(number)
    assert (sewn.merged[sewn.pairs[:, 0]] == sewn.merged[sewn.pairs[:, 1]]).all()
    triangles = sewn.merged[sewn.triangles]
    assert (np.sort(triangles, axis=1)[:, :-1] != np.sort(triangles, axis=1)[:, 1:]).all()
    sides = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    _, counts = np.unique(np.sort(sides, axis=1), axis=0, return_counts=True)
    assert counts.max() == 2
    assert sewn.count == len(sewn.rest) - len(np.unique(sewn.pairs, axis=0)) + _loops(sewn)


def _loops(sewn: Sewn) -> int:
    """How many of the pairs say again what others have said, where several seams meet."""
    root = list(range(len(sewn.rest)))

    def top(k: int) -> int:
        while root[k] != k:
            k = root[k]
        return k

    again = 0
    for one, other in np.unique(sewn.pairs, axis=0).tolist():
        a, b = top(one), top(other)
        again += a == b
        root[a] = b
    return again


def test_every_pattern_is_meshed_or_refused_in_every_size() -> None:
    told: dict[str, set[str]] = {}
    for shown in shelf():
        garment = shown.drafted.garment
        for body in range(len(garment.sizes)):
            try:
                assert areas(sew(garment, body, 30.0)).min() > 0
                told.setdefault(shown.name, set()).add("")
            except CannotDress as error:
                told.setdefault(shown.name, set()).add(str(error))
    assert told == {
        "boatyard": {"why_legs"},
        "breakwater": {""},
        "hooded": {""},
        "lockside": {""},
        "marlpit": {""},
        "netloft": {""},
        "ropewalk": {""},
        "roundhouse": {""},
        "slipway": {"why_legs"},
        "tidemill": {""},
    }


def test_merging_joins_chains_of_pairs() -> None:
    merged = merge(6, np.array([[4, 1], [1, 3], [0, 5]]))
    assert merged.tolist() == [0, 1, 2, 1, 1, 0]


def test_a_facing_doubles_the_cloth_beside_its_edge() -> None:
    """Of a coat's back neck: a facing 6 cm wide, and nothing else of two layers."""
    whole = bundled("breakwater", "M").garment
    faced = next(join for join in whole.joins if join.name == "back_neck")
    sides = next(join for join in whole.joins if join.name == "left_shoulder")
    held = replace(sides, name="held", first=sides.second, second=sides.second)
    pieces = tuple(whole.piece(name) for name in ("back", "back_facing"))
    found = chosen(replace(whole, pieces=pieces, joins=(faced, held)), 0)
    assert list(found.panels) == ["back"]
    panel = found.panels["back"]
    ((line, width),) = panel.doubled
    assert line == "neckline"
    assert 45.0 < width < 75.0
    mesh(panel, 15.0)
    layers = layers_of(panel)
    middle = panel.rest[panel.triangles].mean(axis=1)
    assert set(layers.tolist()) == {1.0, 2.0}
    assert middle[layers > 1.5, 1].min() > panel.lines["neckline"].points[:, 1].min() - width
    assert (layers[middle[:, 1] < -150.0] == 1.0).all()


def test_what_stands_up_from_the_neck_is_left_out_and_told() -> None:
    """A hood or a collar on its stand: the form has no head. A cuff that laps is no strip that could be folded."""
    assert "hood" in meshed(KNIT.index(("hooded", {}))).left_out
    lockside = sew(bundled("lockside", "M").garment, 0, 30.0)
    assert {"stand", "collar", "cuff"} <= set(lockside.left_out)
    assert set(lockside.pieces) == {"front", "placket", "back", "yoke", "sleeve"}


@pytest.mark.parametrize("number", range(len(KNIT)))
def test_every_vertex_has_cloth(number: int) -> None:
    """Also those on straight seams, which lie in one line but for what a machine rounds off."""
    for edge_length in (STEP, 20.0):
        sewn = meshed(number, edge_length=edge_length)
        assert len(np.unique(sewn.triangles)) == len(sewn.rest)


def test_a_sleeve_that_nothing_sews_to_the_body_is_refused() -> None:
    sewn = meshed(5)
    sleeves = [k for k, role in enumerate(sewn.roles) if role == "sleeve"]
    assert sleeves
    loose = np.isin(sewn.piece_of_vertex[sewn.pairs], sleeves).any(axis=1)
    assert loose.any()
    laid_flat(sewn, 60.0)
    with pytest.raises(CannotDress) as refused:
        laid_flat(replace(sewn, pairs=sewn.pairs[~loose]), 60.0)
    assert refused.value.why.key == "why_unsewn"
