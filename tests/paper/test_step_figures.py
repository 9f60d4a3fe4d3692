"""Drawings of steps: hems folded, bands folded, the garment small beside a step that changes it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path as File

import numpy as np
import pytest
import shapely

from draft.drafting.checked import draft_and_check
from draft.geometry.flatten import polyline
from draft.paper.booklet.folded_drawing import GROUND, WRONG
from draft.paper.booklet.order import SewingStep, sewing_order
from draft.paper.booklet.own_steps import with_own
from draft.paper.booklet.seam_letter import lettered
from draft.paper.booklet.set_blocks import SIDE, Block
from draft.paper.booklet.sewing_section import _picture
from draft.paper.booklet.sewn_part import notch_strokes
from draft.paper.booklet.so_far import done_after
from draft.paper.booklet.step_drawing import SEAM, Drawer
from draft.paper.booklet.turned_hem import HIDDEN
from draft.paper.drawing.drawing import Label, Path
from draft.paper.drawing.font import CAP_HEIGHT, text_width
from tests.asking import asked, bundled
from tests.pieces.bundled import PATTERNS

THIN_AT_MOST = 0.3  # mm: outlines are drawn finer, what a step is about thicker
SHOULDERS = ("right_shoulder", "left_shoulder")


@cache
def _steps(name: str) -> list[SewingStep]:
    drafted = bundled(name, "M")
    return with_own(sewing_order(drafted.garment), drafted.plan.booklet.advice)


@cache
def _drawer(name: str) -> Drawer:
    return Drawer.of(bundled(name, "M").garment, 0)


@cache
def _figure(name: str, number: int) -> Block:
    """The drawing of the step with this number, from 0."""
    steps, drawer = _steps(name), _drawer(name)
    at_work = replace(drawer, done=done_after(steps[: number + 1]))
    return _picture(steps[number], at_work, done_after(steps[:number]))


def _number(name: str, step: str, sort: str) -> int:
    return next(k for k, one in enumerate(_steps(name)) if (one.name, one.sort) == (step, sort))


def _filled(block: Block) -> list[Path]:
    return [item for item in block.items if isinstance(item, Path) and item.fill]


def _box(path: Path) -> np.ndarray:
    points = np.concatenate([polyline(run) for run in path.runs])
    return np.stack([points.min(axis=0), points.max(axis=0)])


@pytest.mark.parametrize("name", PATTERNS)
def test_a_hem_lies_folded_on_the_wrong_side_of_its_piece(name: str) -> None:
    number = next(k for k, step in enumerate(_steps(name)) if step.sort == "hem")
    piece, flap = _filled(_figure(name, number))[:2]
    assert (piece.fill, flap.fill) == (WRONG, GROUND)
    (_, top), (_, foot) = _box(piece)
    (_, raw), (_, fold) = _box(flap)
    assert fold == pytest.approx(foot, abs=0.5) and top < raw  # it lies at the foot, and the piece goes on above it


def test_the_flap_is_as_wide_as_the_allowance() -> None:
    """Ropewalk's hem of 4 cm: the drawing shows 4.5 times as much on 30 mm."""
    (_, raw), (_, fold) = _box(_filled(_figure("ropewalk", _number("ropewalk", "hem", "hem")))[1])
    assert fold - raw == pytest.approx(30 / 4.5, rel=0.05)


@pytest.mark.parametrize("name", PATTERNS)
def test_every_drawing_stays_in_its_column(name: str) -> None:
    for number in range(len(_steps(name))):
        for path in _filled(_figure(name, number)):
            low, high = _box(path)
            assert low[0] > -0.1 and high[0] < SIDE + 0.6


def test_the_garment_stands_small_beside_a_step_that_changes_it() -> None:
    """The first shoulder shows nothing new but the second does: front and back hang together then."""
    paths = [
        len(_figure("breakwater", _number("breakwater", f"{side}_shoulder", "join")).items)
        for side in ("right", "left")
    ]
    assert paths[0] == 3 and paths[1] > 8


def test_a_pocket_is_seen_on_the_finished_leg_once_it_is_sewn_on() -> None:
    figure = _figure("boatyard", _number("boatyard", "pocket_on", "patch"))
    widths = [float(np.ptp(_box(path)[:, 0])) for path in _filled(figure)]
    assert len(widths) > 1 and min(widths) < max(widths)


def test_a_step_of_her_own_with_a_piece_s_name_shows_it_folded() -> None:
    lower, upper = _filled(_figure("breakwater", _number("breakwater", "tie", "own")))
    assert (lower.fill, upper.fill) == (GROUND, WRONG)
    wide, high = np.ptp(_box(upper), axis=0)
    drafted = next(piece for piece in bundled("breakwater", "M").garment.pieces if piece.name == "tie")
    ring = np.concatenate([edge.segments[0].reshape(-1, 2) for edge in drafted.edges])
    long, deep = np.ptp(ring, axis=0)
    assert high / wide == pytest.approx((deep / 2 + 12) / (long + 24), rel=0.02)  # half of it, and allowances of 12 mm


def test_elastic_runs_in_a_casing_and_comes_out_at_its_end() -> None:
    drafted = draft_and_check(asked(File(__file__).parents[1] / "good" / "gathered_in.piece"))
    piece = next(one for one in drafted.garment.pieces if any(edge.elastic is not None for edge in one.edges))
    edge = next(one for one in piece.edges if one.elastic is not None)
    drawer = Drawer.of(drafted.garment, 0)
    cased, plain = (drawer.hem([(piece, one)]) for one in (edge, replace(edge, elastic=None)))
    assert not [item for item in plain.items if isinstance(item, Path) and item.stroke == HIDDEN]
    drawn = [item for item in cased.items if isinstance(item, Path)]
    at = next(k for k, item in enumerate(drawn) if item.stroke == HIDDEN)
    hidden, outside = drawn[at : at + 2]
    flap = _box(_filled(cased)[1])
    for lines in (hidden, outside):
        (_, high), (_, low) = _box(lines)
        assert flap[0, 1] < high < low < flap[1, 1], "within the fold and the raw edge"
    assert _box(hidden)[1, 0] == pytest.approx(flap[1, 0], abs=0.2)
    assert _box(outside)[1, 0] > flap[1, 0] + 1.0


def test_a_step_of_her_own_shows_the_garment_as_far_as_it_is_sewn() -> None:
    steps, drawer = _steps("boatyard"), _drawer("boatyard")
    names = [step.name for step in steps]
    found = {
        name: replace(drawer, done=done_after(steps[: names.index(name) + 1])).garment_as_it_is()
        for name in ("fly_turned", "fly_stitched", "creases")
    }
    counts = [len(found[name].items) for name in found]
    assert 0 < counts[0] < counts[1] < counts[2], "the fly is stitched, then the band sewn on and the hem turned up"
    step = steps[names.index("fly_stitched")]
    done = replace(drawer, done=done_after(steps[: names.index("fly_stitched") + 1]))
    shown = _picture(step, done, done.done)
    assert len(shown.items) > counts[1] and _thick(shown), "the line of the fly on its piece, and beside it the garment"


@pytest.mark.parametrize("name", PATTERNS)
def test_a_seam_has_its_letter_beside_it_and_clear_of_all_lines(name: str) -> None:
    """But for one at most, where lines leave no room."""
    drawer, found = _drawer(name), []
    for step in (step for step in _steps(name) if step.join and step.sort == "join"):
        assert step.join
        block = lettered(drawer.join(step.join), "M", SEAM)
        labels = [item for item in block.items if isinstance(item, Label)]
        found.append(len(labels))
        runs = [run for item in block.items if isinstance(item, Path) for run in item.runs]
        for label in labels:
            wide, high = text_width("M", label.size, bold=True), CAP_HEIGHT * label.size
            box = shapely.box(label.x - wide / 2, label.y - high, label.x + wide / 2, label.y)
            assert not any(shapely.LineString(polyline(run)).intersects(box) for run in runs), step.name
            thick = [run for item in block.items if isinstance(item, Path) and item.stroke == SEAM for run in item.runs]
            near = min(shapely.LineString(polyline(run)).distance(box) for run in thick)
            assert 0.5 < near < 9.0, step.name
    assert sum(found) >= len(found) - 1


def test_the_notches_of_a_seam_are_strokes_across_it() -> None:
    garment = bundled("tidemill", "M").garment
    cap = next(join for join in garment.joins if join.name == "cap")
    strokes = notch_strokes(garment, cap, 0)
    assert sorted(len(own) for own in strokes.values()) == [1, 2, 4], "front, back and sleeve with the top of its cap"
    edge = garment.piece("sleeve").edge("cap")
    line = shapely.LineString(polyline(edge.segments[0]))
    assert all(shapely.LineString(stroke[0, (0, 3)]).crosses(line) for stroke in strokes["sleeve", "cap"])


# ---- steps of the designer's own


def _own(name: str, step: str) -> Block:
    return _figure(name, next(k for k, one in enumerate(_steps(name)) if one.name == step))


def _thick(block: Block) -> list[Path]:
    return [item for item in block.items if isinstance(item, Path) and item.stroke and item.stroke.width > THIN_AT_MOST]


def test_a_step_that_names_a_marked_line_shows_it_on_its_pieces() -> None:
    pieces, lines = _own("boatyard", "mark_legs"), _thick(_own("boatyard", "mark_legs"))
    assert sum(isinstance(item, Path) and item.closed for item in pieces.items) == 2
    long = [float(np.ptp(run[..., 1])) for path in lines for run in path.runs]
    assert len(long) == 2 and min(long) > pieces.height / 2  # the creases of the front and of the back


def test_a_step_that_names_no_line_shows_the_seam_that_it_stands_by_on_the_garment() -> None:
    assert _thick(_own("boatyard", "zip_into_facing"))


def test_nothing_is_sewn_while_the_garment_is_tried_on() -> None:
    for pattern in ("ropewalk", "boatyard"):
        assert _own(pattern, "try_on").items and not _thick(_own(pattern, "try_on"))


@pytest.mark.parametrize("name", PATTERNS)
def test_every_step_of_a_designers_own_has_a_drawing(name: str) -> None:
    for number, step in enumerate(_steps(name)):
        assert not step.own or _figure(name, number).items, step.name
