"""What is read of a toile whose figures are known: stretch, room, hem, how far it rises, and what is to be doubted."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.form.field import field_of
from draft.form.landmarks import landmarks_of
from draft.sitting.as_cut import as_cut
from draft.sitting.doubt import doubtful, spread_of
from draft.sitting.figures_of import plain_of, rows_of
from draft.sitting.read_of import farthest_off, hem_of, levels_of, pulls_from_bust, risen, trunk_of
from draft.sitting.reading import HemRead, LevelRead, Reading
from draft.sitting.sides_worn import tighter
from draft.sitting.sit_told import telling
from draft.sitting.size_worn import SizeWorn, size_advice
from draft.sitting.sleeves_read import over_elbow
from draft.sitting.strains import areas, at_points, strains
from draft.sitting.trunk_levels import on_trunk
from draft.sitting.worn_of import worn_of
from tests.form.made_up import form
from tests.sitting.tube import ACROSS, DOWN, LONG, dressed

FORM = form()
FIELD = field_of(FORM, 0, float(np.radians(50.0)))
BARE = field_of(FORM, 0, float(np.radians(50.0)), armless=True)
MARKS = landmarks_of(FORM, 0)


def test_strains_of_a_sheet_that_is_stretched_and_sheared() -> None:
    rest = np.array([[0.0, 0], [10, 0], [10, 10], [0, 10]])
    triangles = np.array([[0, 1, 2], [0, 2, 3]])
    along = np.stack([rest[:, 0] * 1.1, np.zeros(4), rest[:, 1] * 0.95], axis=1)
    found = strains(rest, along, triangles, triangles)
    assert np.allclose(found.greatest, 0.1) and np.allclose(found.least, -0.05)
    assert np.allclose(np.abs(found.way), [[1, 0, 0], [1, 0, 0]])
    sheared = np.stack([rest[:, 0] + 0.2 * rest[:, 1], np.zeros(4), rest[:, 1]], axis=1)
    found = strains(rest, sheared, triangles, triangles)
    assert np.allclose((1 + found.greatest) * (1 + found.least), 1.0)  # shear keeps the area
    assert np.allclose(areas(rest, triangles), 50.0)
    assert np.allclose(at_points(np.array([1.0, 3.0]), np.array([50.0, 50.0]), triangles, 4), [2, 1, 2, 3])


def test_a_tube_is_as_long_round_as_it_was_cut_and_stretched_as_it_is() -> None:
    wide, radius = 200.0, 150.0
    trunk = trunk_of(dressed(wide, radius), BARE)
    chords = 2 * radius * np.sin(np.pi / 4 / ACROSS) * ACROSS / wide - 1
    assert trunk.long_at(-333.0) == pytest.approx(4 * wide, abs=0.01)
    round_it, front, back = trunk.stretch_at(-333.0)
    assert (round_it, front, back) == pytest.approx((np.pi * radius / 2 / wide - 1,) * 3, abs=1e-6)
    greatest = strains(
        trunk.sewn.rest, trunk.positions, trunk.sewn.triangles, trunk.sewn.merged[trunk.sewn.triangles]
    ).greatest
    assert np.allclose(greatest, chords, atol=2e-3)
    assert trunk.reaches() == pytest.approx((-LONG, 0.0))


def test_levels_have_room_or_stretch_and_the_hem_is_one_where_no_level_is_near() -> None:
    loose = levels_of(dressed(260.0, 140.0), FORM, 0, BARE, MARKS, 0.5)
    assert [level.name for level in loose] == ["bust", "waist", "top hip"]  # the hem lies at the top hip, 2 mm off
    waist = next(level for level in loose if level.name == "waist")
    assert waist.room == pytest.approx(4 * 260.0 - 770.0, abs=2.0) and not waist.tight
    tight = levels_of(dressed(190.0, 140.0), FORM, 0, BARE, MARKS, 0.5)
    assert all(level.tight and level.room is None for level in tight)
    high = levels_of(dressed(260.0, 140.0, tilt=35.0), FORM, 0, BARE, MARKS, 0.5)
    assert [level.name for level in high] == ["bust", "waist", "hem"]


def test_hem_and_rising() -> None:
    one = dressed(200.0, 140.0, raised=40.0, tilt=24.0)
    hem = hem_of(one)
    assert hem.front == pytest.approx(24.0) and hem.side == pytest.approx(12.0)
    assert risen(one, "ride") == pytest.approx(40.0) and risen(one, "held") == pytest.approx(20.0)
    assert risen(dressed(200.0, 140.0, raised=-30.0), "ride") == 0.0
    assert risen(one, "ride", since=dressed(200.0, 140.0, tilt=24.0)) == pytest.approx(40.0)


def test_where_it_stands_off_farthest() -> None:
    one = dressed(220.0, 140.0)
    off = np.where(one.states["down"].positions[:, 1] > -110.0, 35.0, 5.0)
    assert farthest_off(one, off, MARKS) == ("back waist", 35.0)


def test_what_forms_disagree_about_is_masked_and_what_lies_near_the_joint() -> None:
    forms = [dressed(200.0, radius) for radius in (140.0, 144.0, 140.0, 144.0)]
    spread = spread_of(forms, [-300.0, -400.0], BARE)
    assert spread is not None
    off = np.pi / 2 * 2.0 / 200.0  # of the mean radius 142, give or take 2
    assert spread.at(-350.0) == pytest.approx(off, rel=0.02)
    mesh, settled = forms[0].sewn, forms[0].states["down"]
    assert doubtful(mesh, settled, FIELD.joint, spread, False).all() == (off > 0.01)
    near = doubtful(mesh, settled, settled.positions[200], None, False)
    assert 0 < near.sum() < 60 and near[200] == 1
    assert doubtful(mesh, settled, FIELD.joint, None, True).all()
    assert spread_of(forms[:2], [-300.0], BARE) is None
    band = replace(mesh, roles=("front", "band"))
    masked = doubtful(band, settled, FIELD.joint * 10, None, False)
    assert masked.sum() == (DOWN + 1) * ACROSS  # the back, without the seam that it shares with the front


def test_what_is_faced_is_masked_and_a_piece_of_two_layers_is_as_true_as_one() -> None:
    mesh, settled = dressed(200.0, 140.0).sewn, dressed(200.0, 140.0).states["down"]
    back = mesh.piece_of_triangle == 1
    yoke = replace(mesh, layers=np.where(back, 2.0, 1.0))
    assert as_cut(yoke).all() and not doubtful(yoke, settled, FIELD.joint * 10, None, False).any()
    assert (on_trunk(yoke, ("back",)) == back).all()
    low = mesh.rest[mesh.triangles][:, :, 1].mean(axis=1) < mesh.rest[:, 1].mean()
    faced = replace(mesh, layers=np.where(back, 2.0, 1.0) + (back & low))
    assert (as_cut(faced) == ~(back & low)).all()
    assert 0 < doubtful(faced, settled, FIELD.joint * 10, None, False).sum() < (DOWN + 1) * ACROSS


def test_cloth_with_much_room_that_is_pulled_a_little_is_not_called_tight() -> None:
    """Under a full bust a top without darts is pulled aslant at the waist, where it goes round with a hand to spare."""
    pulled = LevelRead("waist", -400.0, 0.02, 0.02, 0.02, 0.4, 150.0, pulled=True)
    hip = LevelRead("hip", -570.0, 0.05, 0.05, 0.05, 0.4, None)
    found = [one.key for one in telling(Reading((pulled, hip), HemRead(0.0, 0.0), 2.0, 8.0), True)]
    assert found[:2] == ["tight", "room_there"] and not pulled.tight
    one = dressed(200.0, 128.5)  # stretched by 1 %, round a form that is slimmer than it by more than 60 mm
    (waist,) = [level for level in levels_of(one, FORM, 0, BARE, MARKS, 0.4) if level.name == "waist"]
    girth = float(FORM.girth("waist")[0])
    assert waist.pulled == (800.0 - girth > 60.0 and waist.stretched >= 0.0)


def test_nothing_is_carried_from_a_band_to_what_it_is_sewn_to() -> None:
    one = dressed(200.0, 140.0)
    banded = replace(one, sewn=replace(one.sewn, roles=("front", "band")))
    plain, worn = (worn_of(each, FIELD, BARE, MARKS, np.zeros(one.sewn.count)) for each in (one, banded))
    half = len(worn.points) // 2
    own = half - one.sewn.count
    assert own == (DOWN + 1) * (ACROSS + 1)  # the back has all of its points for itself, seams too
    assert (worn.doubtful[: one.sewn.count] == 0).all() and (worn.doubtful[one.sewn.count : half] == 1).all()
    assert (worn.stretched[one.sewn.count : half] == 0).all()
    front = np.unique(worn.triangles[: len(one.sewn.triangles)][one.sewn.piece_of_triangle == 0])
    assert (front < one.sewn.count).all()
    assert worn.stretched[front] == pytest.approx(plain.stretched[front], abs=1e-3)
    assert worn.points[worn.triangles] == pytest.approx(plain.points[plain.triangles])  # the same is drawn


def test_as_it_is_looked_at_it_has_both_halves_seams_and_hems() -> None:
    one = dressed(200.0, 140.0)
    worn = worn_of(one, FIELD, BARE, MARKS, np.zeros(one.sewn.count))
    assert len(worn.points) == 2 * one.sewn.count and len(worn.triangles) == 2 * len(one.sewn.triangles)
    assert worn.points[:, 0].min() == pytest.approx(-140.0) and worn.points[:, 0].max() == pytest.approx(140.0)
    assert len(worn.seams) == 2 and len(worn.edges) == 8  # a side each; hems and tops of front and back, both halves
    assert worn.stretched == pytest.approx(np.pi * 140 / 2 / 200 - 1, abs=0.004)
    assert len(worn.drags) == 0  # stretched round a tube it narrows, and no crease runs anywhere


def test_strokes_show_where_cloth_pulls_one_way_and_is_slack_across() -> None:
    one = dressed(200.0, 140.0)
    down = one.states["down"]
    slack = replace(down, positions=down.positions * [1.0, 1.0, 0.9])
    creased = replace(one, states={"down": slack, "held": slack, "ride": slack})
    worn = worn_of(creased, FIELD, BARE, MARKS, np.zeros(one.sewn.count))
    assert len(worn.drags) > 20
    ways = worn.drags[:, 1] - worn.drags[:, 0]
    assert np.abs(ways[:, 2]).max() < 1.0  # level: round the tube
    doubted = worn_of(creased, FIELD, BARE, MARKS, np.ones(one.sewn.count))
    assert len(doubted.drags) == 0
    let_go = replace(one, states={"down": slack, "held": down, "ride": down})
    assert len(worn_of(let_go, FIELD, BARE, MARKS, np.zeros(one.sewn.count)).drags) > 0


def _reading(**other: object) -> Reading:
    level = LevelRead("hip", -570.0, 0.0, 0.0, 0.0, 0.4, 50.0)
    return replace(Reading((level,), HemRead(0.0, 0.0), 0.0, 5.0), **other)  # type: ignore[arg-type]


def _keys(reading: Reading, made: bool = False) -> list[str]:
    return [one.key for one in telling(reading, made)]


def test_what_is_said_follows_what_is_read() -> None:
    assert _keys(_reading()) == ["room", "hem_level", "stays", "nothing_to_change"]
    assert _keys(_reading(from_waist=True)) == ["room", "hem_level", "nothing_to_change"]  # a skirt is not pulled down
    tight = LevelRead("hip", -570.0, 0.25, 0.25, 0.25, 0.4, None, 0.004)
    assert _keys(_reading(levels=(tight,)))[0] == "too_tight"
    assert "larger_there" in _keys(_reading(levels=(tight,))) and "more_ease" in _keys(_reading(levels=(tight,)), True)
    firm = replace(tight, gives=0.0)
    assert _keys(_reading(levels=(firm,)), True) == ["firm", "more_ease"]  # its hem hangs nowhere
    assert _keys(_reading(levels=(replace(tight, gives=0.2),)))[0] == "beyond"
    man = replace(_reading().levels[0], name="chest")
    assert "aslant" in _keys(_reading(levels=(man,), from_bust=0.04))
    front = LevelRead("bust", -223.0, 0.03, 0.06, -0.01, 0.5, None)
    assert _keys(_reading(levels=(front,)))[0] == "slack_behind" and "bust_wants_room" in _keys(
        _reading(levels=(front,))
    )
    assert _keys(_reading(levels=(replace(front, back=0.001),)))[0] == "tight_in_front"  # it does not hang slack
    guessed = _keys(_reading(levels=(tight,), estimated=("hip_girth",)))
    assert guessed.index("measure") < guessed.index("larger_there")
    size = SizeWorn("S", "bust", 90.0, "L", (("hip", "M"),), too_small=True)
    sized = [one.key for one in telling(_reading(levels=(tight,)), False, size)]
    assert sized[0] == "size_too_small" and "take_size_graded" in sized and "larger_there" not in sized
    kept = [one.key for one in telling(_reading(), False, replace(size, size="L", too_small=False))]
    assert "grade_size" in kept and "no_size" in [one.key for one in size_advice(replace(size, cut=""))]
    large = replace(size, lacks=-90.0, graded=(), too_small=False, too_large=True)
    assert telling(_reading(), False, large)[0].key == "size_too_large"
    back = LevelRead("bust", -223.0, 0.03, 0.006, 0.06, 0.5, None)
    assert _keys(_reading(levels=(back,)))[0] == "tight_behind"
    assert "hem_front_lower" in _keys(_reading(hem=HemRead(-20.0, -10.0)))
    assert "hem_level" in _keys(_reading(hem=HemRead(12.0, 6.0, front_spread=14.0)))  # within what forms disagree by
    assert "hem_side_higher" in _keys(_reading(hem=HemRead(0.0, 30.0)))
    assert "may_ride_up" in _keys(_reading(rides=30.0)) and "rides_up" in _keys(_reading(rides=30.0, stays=12.0))
    assert "lifts" in _keys(_reading(reaches=40.0)) and "hardly_lifts" in _keys(_reading(reaches=4.0))
    roomy = replace(_reading().levels[0], room=260.0)
    assert "smaller" in _keys(_reading(levels=(roomy,))) and "less_ease" in _keys(_reading(levels=(roomy,)), True)


def test_no_more_than_eight_things_are_seen_and_three_advised() -> None:
    levels = [LevelRead(name, -100.0 * k, 0.1 + k / 100, 0.1, 0.1, 0.5, None) for k, name in enumerate(
        ("bust", "waist", "top hip", "hip", "hem", "upper arm"))]  # type: ignore[arg-type]  # fmt: skip
    levels += [LevelRead("bust", -50.0, 0.0, 0.0, 0.0, 0.5, 40.0), LevelRead("waist", -60.0, 0.0, 0.0, 0.0, 0.5, 190.0)]
    told = telling(_reading(levels=tuple(levels), hem=HemRead(30.0, 60.0), rides=50.0, reaches=40.0,
                            hollow=("back waist", 60.0), estimated=("bust_depth",)), False)  # fmt: skip
    seen = [one for one in told if not one.advice]
    assert (
        len(seen) <= 8 and [one.key for one in seen][:3] == ["tight"] * 3 and "most_room" not in {s.key for s in seen}
    )
    assert 1 <= len(told) - len(seen) <= 3


def test_nothing_is_said_of_what_may_not_be() -> None:
    said = telling(_reading(rides=41.0, reaches=33.0), False)
    assert all("pressure" not in one.key and "comfort" not in one.key for one in said)


def test_figures_are_rows_and_plain_data() -> None:
    rows = list(rows_of(_reading(reaches=30.0, hollow=("back waist", 41.0))))
    assert ("room", "hip", 5.0, "cm", None) in rows and ("stands off", "back waist", 4.1, "cm", None) in rows
    assert ("rises with raised arms at most", "hem", 3.0, "cm", None) in rows
    data = plain_of(_reading(estimated=("bust_depth",), outside={"hip_girth": 1400.0}))
    assert data["estimated"] == ["bust_depth"] and data["outside_of_the_surveyed"] == {"hip_girth": 140.0}


@pytest.mark.parametrize(("higher", "is_told"), [(12.0, False), (25.0, True)])
def test_a_front_that_hangs_short_is_to_be_lengthened(higher: float, is_told: bool) -> None:
    reading = Reading((), HemRead(higher, 0.0, front_spread=5.0), None, None, None)
    told = {one.key for one in telling(reading, by_ease=False) if one.advice}
    assert ("front_hangs_short" in told) == is_told and ("nothing_to_change" in told) != is_told


def test_a_pull_from_the_bust_is_told() -> None:
    """A dozen strokes down and out in front, below the bust; level or upright ones, few, or those behind, are none."""
    down = np.linspace(MARKS.levels["bust"] - 20.0, MARKS.levels["hip"] + 60.0, 12)

    def strokes(way: tuple[float, float, float], y: float) -> Floats:
        at = np.stack([np.full(12, 90.0), np.full(12, y), down], axis=1)
        return np.stack([at - np.array(way), at + np.array(way)], axis=1)

    around = np.stack([np.full(200, 90.0), np.full(200, -120.0), np.linspace(-700.0, 0.0, 200)], axis=1)
    stretched = np.where(around[:, 2] > MARKS.levels["waist"], 0.08, 0.02)

    def pull(drawn: Floats) -> float:
        return pulls_from_bust(drawn, around, stretched, MARKS, 0.0)

    assert pull(strokes((6.0, 0.0, -8.0), -120.0)) == pytest.approx(0.08)
    assert pull(strokes((10.0, 0.0, 0.0), -120.0)) == pull(strokes((0.0, 0.0, 10.0), -120.0)) == 0.0
    assert pull(strokes((6.0, 0.0, -8.0), 60.0)) == pull(strokes((6.0, 0.0, -8.0), -120.0)[:5]) == 0.0
    reading = Reading((), HemRead(0.0, 0.0), None, None, from_bust=0.03)
    assert "from_bust" in {one.key for one in telling(reading, by_ease=False)}


def test_a_sleeve_over_a_bent_elbow_and_a_front_that_is_shaped() -> None:
    """A tube stretched by a tenth lies where an arm's elbow would be, and nowhere near another's."""
    one = dressed(200.0, 140.0)
    elbow = one.states["down"].positions[200]
    there = replace(FIELD, arm=replace(FIELD.arm, middles=np.stack([elbow] * 4)))
    stretched = np.pi / 2 * 140.0 / 200.0 - 1.0
    assert over_elbow(one, there, "down") == pytest.approx(stretched, abs=0.005)
    away = replace(FIELD, arm=replace(FIELD.arm, middles=FIELD.arm.middles * 3.0))
    assert over_elbow(one, away, "down") is None
    bent = Reading((), HemRead(0.0, 0.0), None, None, over_elbow=0.09)
    assert "over_elbow" in [said.key for said in telling(bent, True)]
    assert "elbow_has_room" in [said.key for said in telling(replace(bent, over_elbow=0.01), True)]
    pulls = replace(bent, from_bust=0.05)
    assert "from_bust" in [said.key for said in telling(pulls, True)]
    assert "aslant" in [said.key for said in telling(replace(pulls, shaped=True), True)]


def test_what_was_not_tried_on_other_forms_says_so() -> None:
    quick = replace(_reading(), not_tried=True)
    assert "not_tried" in _keys(quick) and "not_tried" not in _keys(_reading())
    assert tighter(quick, _reading()).not_tried


def test_of_cloth_that_gives_its_own_width_a_hundredth_is_not_doubted() -> None:
    forms = [dressed(200.0, radius) for radius in (140.0, 144.0, 140.0, 144.0)]  # 0.016 apart, one deviation
    spread = spread_of(forms, [-300.0], BARE)
    mesh, settled = forms[0].sewn, forms[0].states["down"]
    assert doubtful(mesh, settled, FIELD.joint * 10, spread, False, 0.4).all()
    assert not doubtful(mesh, settled, FIELD.joint * 10, spread, False, 1.1).any()
