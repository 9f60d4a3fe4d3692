"""Two drafts compared: what has moved and how far, what only one of them has, and how it is told and drawn."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner, Result

from draft.answers.compare import Compared, compare_files
from draft.command.main import commands
from draft.garment.changes import Changes, changes
from draft.garment.garment import Garment, Piece
from draft.paper.drawing.drawing import Label
from draft.paper.drawing.drawing import Path as Drawn
from draft.paper.pictures.compared import NEW, OLD, compared_drawing
from tests.seams.test_walk import garment, panel

PLAIN = panel("one", "20 cm") + panel("two", "30 cm")


def ran(*words: str) -> Result:
    return CliRunner().invoke(commands, list(words))


def by_name(found: Changes) -> dict[str, tuple[float, float]]:
    """How far each edge has moved, and by how much it is longer, for the first body."""
    return {f"{e.piece}.{e.edge}": (round(float(e.moved[0]), 6), round(float(e.longer[0]), 6)) for e in found.edges}


def test_a_draft_is_as_it_was() -> None:
    found = changes(garment(PLAIN), garment(PLAIN))
    assert len(found.edges) == 8 and not found.changed
    assert not (found.new_pieces or found.missing_pieces or found.new_edges or found.missing_edges or found.elsewhere)


def test_a_wider_piece_moves_its_side_and_lengthens_its_hem() -> None:
    found = changes(garment(PLAIN), garment(panel("one", "22.5 cm") + panel("two", "30 cm")))
    moved = by_name(found)
    assert moved["one.side"] == (25.0, 0.0)
    assert moved["one.hem"] == moved["one.top"] == (25.0, 25.0)
    assert moved["one.left"] == (0.0, 0.0)
    assert {f"{e.piece}.{e.edge}" for e in found.changed} == {"one.hem", "one.side", "one.top"}


def test_a_side_that_leans_moves_where_it_leans_most() -> None:
    found = changes(garment(PLAIN), garment(panel("one", "20 cm", lean="3 cm") + panel("two", "30 cm")))
    (side,) = [e for e in found.changed if e.edge == "side"]
    assert side.moved[0] == pytest.approx(30.0) and np.allclose(side.at[0], [230.0, 400.0])
    assert side.longer[0] == pytest.approx(np.hypot(400, 30) - 400)


def test_each_body_has_its_own_figures() -> None:
    found = changes(garment(panel("one", "bust_girth / 4")), garment(panel("one", "bust_girth / 5")))
    (side,) = [e for e in found.changed if e.edge == "side"]
    assert np.allclose(side.moved, np.array([800, 1000, 1200]) / 20)


def test_new_and_missing_pieces_and_edges_are_named() -> None:
    other = panel("one", "20 cm").replace("left  d", "back  d") + panel("three", "30 cm")
    found = changes(garment(PLAIN), garment(other))
    assert (found.new_pieces, found.missing_pieces) == (("three",), ("two",))
    assert (found.new_edges, found.missing_edges) == (("one.back",), ("one.left",))


def test_a_piece_that_is_only_drafted_elsewhere_has_not_changed() -> None:
    away = panel("one", "20 cm")
    for point, at in (("a", "0, 0"), ("b", "20 cm, 0"), ("c", "20 cm + 0 cm, 40 cm"), ("d", "0, 40 cm")):
        x, y = at.split(", ")
        away = away.replace(f"{point} at {at}", f"{point} at {x} + 3 cm, {y} - 4 cm")
    found = changes(garment(panel("one", "20 cm")), garment(away))
    ((name, way),) = found.elsewhere
    assert name == "one" and np.allclose(way, [[30, -40]] * 3)
    assert not found.changed


def test_unlike_numbers_of_bodies_are_not_compared() -> None:
    made = garment(PLAIN)
    with pytest.raises(ValueError, match="as many bodies"):
        changes(made, replace(made, sizes=made.sizes[:1]))


def test_turned_about_edges_have_only_changed_if_they_lie_elsewhere() -> None:
    made = garment(PLAIN)
    assert not changes(made, replace(made, pieces=tuple(_run_backwards(piece) for piece in made.pieces))).changed


def _run_backwards(piece: Piece) -> Piece:
    return replace(piece, edges=tuple(replace(edge, segments=edge.segments[:, ::-1, ::-1]) for edge in piece.edges))


def drawn(old: Garment, new: Garment, body: int = 0) -> tuple[list[Drawn], list[Drawn], list[str]]:
    drawing = compared_drawing(old, new, changes(old, new), body, ("old.piece", "new.piece"))
    layers = {layer.name: layer.items for layer in drawing.layers}
    lines = [[item for item in layers[name] if isinstance(item, Drawn)] for name in ("old", "new")]
    return lines[0], lines[1], [item.text for item in drawing.items() if isinstance(item, Label)]


def test_both_outlines_are_drawn_the_new_one_heavy() -> None:
    old, new, words = drawn(garment(PLAIN), garment(panel("one", "22.5 cm") + panel("three", "30 cm")))
    assert {line.id for line in old} >= {"one.side.old", "two.side.old"}
    assert {line.id for line in new} >= {"one.side.new", "three.side.new"}
    assert all(line.stroke == OLD for line in old) and all(line.stroke == NEW for line in new)
    assert "side 25.0 mm" in words and "hem 25.0 mm, 25.0 mm longer" in words
    assert "new" in words and "no longer there" in words
    assert "old: old.piece" in words and "new: new.piece" in words
    side = {line.id: line.runs[0] for line in (*old, *new)}
    assert np.allclose(side["one.side.new"] - side["one.side.old"], [25.0, 0.0])


def test_pieces_do_not_lie_on_one_another() -> None:
    old, new, _ = drawn(garment(PLAIN), garment(panel("one", "22.5 cm") + panel("three", "30 cm")))
    boxes: dict[str, list[np.ndarray]] = {}
    for line in (*old, *new):
        boxes.setdefault(line.id.split(".")[0], []).append(line.box())
    spans = {name: (np.min(some, axis=0)[0], np.max(some, axis=0)[1]) for name, some in boxes.items()}
    names = list(spans)
    for k, name in enumerate(names):
        for other in names[k + 1 :]:
            (low, high), (floor, top) = spans[name], spans[other]
            assert (low > top).any() or (floor > high).any()


def test_the_table_has_a_row_for_every_edge_and_size() -> None:
    old, new = garment(PLAIN), garment(panel("one", "22.5 cm") + panel("two", "30 cm"))
    files = compare_files(Compared(old, new, ("a", "b"), changes(old, new)))
    rows = list(csv.DictReader(io.StringIO(files["compare.csv"].decode())))
    assert len(rows) == 8 * 3
    assert {row["moves mm"] for row in rows if (row["piece"], row["edge"]) == ("one", "side")} == {"25.00"}
    assert set(files) == {"compare.csv", "compare-body-1.svg", "compare-body-2.svg", "compare-body-3.svg"}


def test_two_sizes_of_the_demo(tmp_path: Path) -> None:
    done = ran("compare", "marlpit", "--between", "M,L", "--out", str(tmp_path))
    assert done.exit_code == 0
    assert "old: marlpit, size M" in done.output and "new: marlpit, size L" in done.output
    assert (tmp_path / "compare.svg").is_file()
    row = next(line.split() for line in done.output.splitlines() if line.startswith("front.hem"))
    assert float(row[4]) == pytest.approx(17.5, abs=0.1)  # the chart's hip grows by 7 cm from M to L


STYLED = """
pattern sack
    title "Sack"
    chart "women.csv"

body
    bust_girth

style
    depth  40 cm  from 20 cm to 60 cm  "how deep it is"
""" + panel("one", "bust_girth / 2", "depth")

PERSON = 'name = "{}"\n\n[measures]\nbust_girth = "{} cm"\n'


def test_two_styles_and_two_people(tmp_path: Path) -> None:
    (tmp_path / "sack.piece").write_text(STYLED)
    for name, girth in (("ines", 90), ("ada", 100)):
        (tmp_path / f"{name}.toml").write_text(PERSON.format(name, girth))
    sack, ines, ada = (str(tmp_path / name) for name in ("sack.piece", "ines.toml", "ada.toml"))
    style = ran("compare", sack, "--sizes", "M", "--new-style", "depth=43 cm")
    row = next(line.split() for line in style.output.splitlines() if line.startswith("one.side"))
    assert style.exit_code == 0 and row[1:] == ["30.0", "40.0", "43.0", "30.0"]
    people = ran("compare", sack, "--old-body", ines, "--new-body", ada)
    row = next(line.split() for line in people.output.splitlines() if line.startswith("one.hem"))
    assert people.exit_code == 0 and row[1:] == ["50.0", "45.0", "50.0", "50.0"]
    assert "ines.toml" in people.output and "ada.toml" in people.output


def test_patterns_with_other_sizes_are_compared_in_those_that_they_share(tmp_path: Path) -> None:
    done = ran("compare", "marlpit", "tidemill")
    assert done.exit_code == 0
    assert (
        "new edges: `back.shoulder`" in done.output and "pieces that are no longer there: `sleeve_band`" in done.output
    )


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "nothing to compare with"),
        (("--between", "M"), "takes two sizes"),
        (("--between", "M,L", "--sizes", "M"), "takes two sizes"),
        (("--new-body", "me.toml"), "go together"),
    ],
)
def test_what_cannot_be_compared_is_refused(words: tuple[str, ...], said: str) -> None:
    done = ran("compare", "marlpit", *words)
    assert done.exit_code == 2 and said in done.output
