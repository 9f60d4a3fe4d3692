"""What must hold of any pattern: of each of this folder's, and of each that is bundled."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.base.resources import folder
from draft.base.units import Kind, read_quantity
from draft.bodies.bodies import Bodies
from draft.drafting.assembling import assemble
from draft.drafting.drafting import draft_plan
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.length import length, point_at
from draft.plan.library import Texts, read_texts
from draft.plan.make import plan_texts
from draft.plan.plan import Plan
from draft.solve import evaluate
from tests.good.cases import CASES, bodies_of, styles_of
from tests.good.described import is_written
from tests.good.treework import lengthened, shuffled
from tests.pieces.bundled import PATTERNS

BUNDLED = [folder("pieces") / f"{name}.piece" for name in PATTERNS]
SAME = 1e-6  # mm, rad or plain: sums in another order, and no more

Named = dict[str, Floats]


@dataclass(frozen=True)
class Usual:
    """A file as it is, drafted once for all that is held of it."""

    texts: Texts
    styles: Mapping[str, str]
    plan: Plan
    bodies: Bodies
    drafted: np.ndarray
    values: Named
    garment: Garment


@pytest.fixture(scope="module", params=[*CASES, *BUNDLED], ids=lambda path: path.stem)
def usual(request: pytest.FixtureRequest) -> Usual:
    path: Path = request.param
    texts, styles = read_texts(path), styles_of(path)
    plan, bodies = plan_texts(texts, styles), bodies_of(texts)
    return Usual(texts, styles, plan, bodies, *_values(plan, bodies))


def _values(plan: Plan, bodies: Bodies) -> tuple[np.ndarray, Named, Garment]:
    """Who is drafted, what the names stand for that somebody has written, and the garment."""
    outcome = evaluate(plan, bodies)
    written = {name: values for name, values in outcome.trace.values.items() if is_written(name)}
    return outcome.drafted, written, assemble(plan, outcome)[0]


def _drawn(garment: Garment) -> Named:
    """What is cut and sewn, by names that do not lean on any order; an outline begins at its least name."""
    found = {f"finished {f.name}": f.values for f in garment.finished}
    for piece in garment.pieces:
        edges = _from_the_first(piece)
        found[f"{piece.name} outline"] = np.concatenate([edge.segments for edge in edges], axis=1)
        widths = [[edge.allowance, float(edge.on_fold), float(edge.turned_up)] for edge in edges]
        found[f"{piece.name} allowances"] = np.array(widths)
        for edge in edges:
            places = [n.at for n in piece.notches if n.edge == edge.name]
            found[f"{piece.name}.{edge.name} notches"] = np.sort(places, axis=0) if places else np.array([])
    return found


def _from_the_first(piece: Piece) -> list[Edge]:
    names = [edge.name for edge in piece.edges]
    first = names.index(min(names))
    return [*piece.edges[first:], *piece.edges[:first]]


def _alike(one: Named, other: Named, close: float = SAME) -> None:
    assert one.keys() == other.keys()
    for name, values in one.items():
        np.testing.assert_allclose(values, other[name], rtol=1e-9, atol=close, err_msg=name)


@pytest.mark.parametrize("seed", [1, pytest.param(2, marks=pytest.mark.slow)])
def test_the_order_of_lines_does_not_matter(usual: Usual, seed: int) -> None:
    _, mixed, other = _values(plan_texts(shuffled(usual.texts, seed), usual.styles), usual.bodies)
    _alike(usual.values, mixed)
    _alike(_drawn(usual.garment), _drawn(other))


def test_a_body_is_drafted_alone_as_in_company(usual: Usual) -> None:
    """The first and the last by themselves, and those between without these two."""
    names = list(usual.bodies.names)
    for some in (names[:1], names[-1:] if len(names) > 1 else [], names[1:-1]):
        if some:
            _drafted_as_in_company(usual, some)


def _drafted_as_in_company(usual: Usual, names: list[str]) -> None:
    rows = [usual.bodies.names.index(name) for name in names]
    _, alone, own = _values(usual.plan, usual.bodies.select(names))
    _alike({step: values[rows] for step, values in usual.values.items()}, alone)
    for piece, other in zip(usual.garment.pieces, own.pieces, strict=True):
        for edge, twin in zip(piece.edges, other.edges, strict=True):
            for row, path in zip(rows, twin.segments, strict=True):
                _same_line(edge.segments[row], path)


def _same_line(path: np.ndarray, other: np.ndarray) -> None:
    """A line is blended in as many parts as any body of its company needs: it is the same line, parted elsewhere."""
    if path.shape == other.shape:
        np.testing.assert_allclose(path, other, atol=SAME)
        return
    share = np.linspace(0, 1, 65)
    seen = [np.stack([point_at(one[None], part * length(one[None]))[0] for part in share]) for one in (path, other)]
    np.testing.assert_allclose(seen[0], seen[1], atol=SAME)


def test_a_body_twice_as_long_is_drafted_twice_as_long(usual: Usual) -> None:
    """With every measure and every written length doubled, every point lies twice as far, to the solver's tolerance."""
    styles = {name: _doubled(text) for name, text in usual.styles.items()}
    twice = evaluate(plan_texts(lengthened(usual.texts, 2.0), styles), _twice(usual.bodies, usual.plan))
    assert np.array_equal(usual.drafted, twice.drafted)
    for step in [step for step in usual.plan.steps if is_written(step.name)]:
        factor = 2.0 if step.kind in (Kind.LENGTH, Kind.POINT, Kind.ROW, Kind.EDGE, Kind.STEP) else 1.0
        found = twice.trace.values[step.name]
        np.testing.assert_allclose(found, factor * usual.values[step.name], atol=0.01, err_msg=step.name)


def _twice(bodies: Bodies, plan: Plan) -> Bodies:
    lengths = {name for name, measure in plan.known.items() if measure.kind is Kind.LENGTH}
    return replace(bodies, values={n: v * 2 if n in lengths else v for n, v in bodies.values.items()})


def _doubled(text: str) -> str:
    if not text[:1].isdigit():
        return text
    found = read_quantity(text)
    return f"{found.value * 2:.6f} mm" if found.kind is Kind.LENGTH else text


def test_every_figure_is_finite(usual: Usual) -> None:
    drafted = draft_plan(usual.plan, usual.bodies)
    assert drafted.outcome.drafted.all()
    for name, values in {**drafted.outcome.trace.values, **_drawn(drafted.garment)}.items():
        if not name.endswith("notches"):  # a size may lack a notch, which then lies nowhere
            assert np.isfinite(values).all(), name
