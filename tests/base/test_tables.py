"""The tables of a pack against the lines themselves, measured again by short chords."""

from __future__ import annotations

import csv
import io
from functools import cache

import numpy as np
import pytest
import shapely

from draft.answers.tables import table_files
from draft.base.arrays import Floats
from draft.garment.garment import Garment
from draft.geometry.flatten import sample
from tests.asking import bundled

CHORDS = 2000  # on each segment: a length by chords is then within a micrometre
CM, INCH = 0.06, 0.006  # half of the last digit printed, and a little


@cache
def top() -> Garment:
    return bundled("marlpit").garment


def chords(piece: str, edge: str) -> Floats:
    """The length of an edge in mm `(B,)`, chord by chord."""
    return np.asarray(shapely.length(shapely.linestrings(sample(top().piece(piece).edge(edge).segments, CHORDS))))


def end(piece: str, edge: str, last: bool) -> Floats:
    """The first or last point of an edge `(B, 2)`."""
    segments = top().piece(piece).edge(edge).segments
    return segments[:, -1, 3] if last else segments[:, 0, 0]


def rows(name: str) -> list[dict[str, str]]:
    """A table as a spreadsheet reads it."""
    text = table_files(top())[f"tables/{name}.csv"].decode("utf-8")
    return list(csv.DictReader(io.StringIO(text)))


def told(measurement: str, taken: str, unit: str) -> Floats:
    (row,) = [r for r in rows("finished") if (r["measurement"], r["taken"], r["unit"]) == (measurement, taken, unit)]
    return np.array([float(row[size]) for size in top().sizes])


@pytest.mark.parametrize(
    ("measurement", "edges"),
    [
        ("hem", [("front", "hem", 2), ("back", "hem", 2)]),
        ("neckline", [("front", "neckline", 2), ("back", "neckline", 2)]),
        ("cuff", [("front", "cuff", 1), ("back", "cuff", 1)]),
    ],
)
def test_girths_are_those_of_the_sewing_lines(measurement: str, edges: list[tuple[str, str, int]]) -> None:
    round_ = np.sum([chords(piece, edge) * copies for piece, edge, copies in edges], axis=0)
    np.testing.assert_allclose(told(measurement, "round", "cm"), round_ / 10, atol=CM)
    np.testing.assert_allclose(told(measurement, "flat", "cm"), round_ / 20, atol=CM)
    np.testing.assert_allclose(told(measurement, "round", "in"), round_ / 25.4, atol=INCH)
    np.testing.assert_allclose(told(measurement, "flat", "in"), round_ / 50.8, atol=INCH)


def test_lengths_are_those_of_the_sewing_lines() -> None:
    np.testing.assert_allclose(told("overarm", "length", "cm"), chords("back", "overarm") / 10, atol=CM)
    down = end("back", "hem", last=True) - end("back", "neckline", last=False)
    np.testing.assert_allclose(told("back length", "length", "cm"), -down[:, 1] / 10, atol=CM)


@pytest.mark.parametrize(("measurement", "level"), [("bust", None), ("waist", "back_waist_length")])
def test_widths_are_cut_across_the_outline_itself(measurement: str, level: str | None) -> None:
    """A level line through the closed outlines; where it meets the sleeve as well, what lies nearest the fold."""
    garment = top()
    outcome = bundled("marlpit").outcome
    for k in range(len(garment.sizes)):
        whole = 0.0
        for name in ("front", "back"):
            piece = garment.piece(name)
            height = outcome.trace.values[f"{name}.{'bust_side' if level is None else 'waist_centre'}"][k, 1]
            outline = np.concatenate([sample(edge.segments, 200)[k] for edge in piece.edges])
            across = shapely.intersection(
                shapely.Polygon(outline).buffer(0), shapely.LineString([(-1, height), (2000, height)])
            )
            parts = sorted(shapely.get_parts(across), key=lambda part: part.bounds[0])
            whole += 2 * parts[0].length
        assert told(measurement, "round", "cm")[k] == pytest.approx(whole / 10, abs=CM)


def test_every_measurement_has_a_row_for_each_way_it_is_taken() -> None:
    found = [(r["measurement"], r["taken"], r["unit"]) for r in rows("finished")]
    expected = []
    for measurement in top().finished:
        name = measurement.name.replace("_", " ")
        for taken in ("round", "flat") if measurement.around else ("length",):
            expected += [(name, taken, "cm"), (name, taken, "in")]
    assert found == expected
    assert {r["where"] for r in rows("finished") if r["measurement"] == "waist"} == {"at the waist"}


def test_every_join_has_a_row_for_each_size_with_both_lengths() -> None:
    garment = top()
    found = rows("seams")
    assert [(r["join"], r["size"]) for r in found] == [(j.name, size) for j in garment.joins for size in garment.sizes]
    underarm = [r for r in found if r["join"] == "underarm"]
    for side, piece in (("first mm", "front"), ("second mm", "back")):
        np.testing.assert_allclose([float(r[side]) for r in underarm], chords(piece, "underarm"), atol=0.011)
    assert all(abs(float(r["difference mm"])) <= 0.5 for r in found)
    assert not [r for r in found if r["difference mm"].startswith("-0.00")]


def test_a_stretched_join_tells_how_far_it_is_stretched() -> None:
    for row in rows("seams"):
        first, second = float(row["first mm"]), float(row["second mm"])
        if row["stretched to"]:
            assert float(row["stretched to"]) == pytest.approx(second / first, abs=2e-3)
        else:
            assert first == pytest.approx(second, abs=0.5)
    assert {row["join"] for row in rows("seams") if row["stretched to"]} == {"neck", "cuff"}
