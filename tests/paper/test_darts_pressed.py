"""What a dart is pressed towards stands on the paper: the designer may name an edge, a point, a part left out."""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.garment.garment import InnerDart, Takeup
from draft.paper.booklet import BookletFacts, booklet_pdf
from draft.paper.booklet.pressed_towards import edges_towards
from draft.paper.drawing.wording import Wording
from tests.asking import asked
from tests.paper.reading import page_count, text_of

GOOD = Path(__file__).parents[1] / "good"
JOIN = "join\n    side  front.side to strip.side\n"
PARTED = "join\n    low   part of front.side from front.side_low to front.half to strip.side\n"


def drafted(folder: Path, text: str) -> Drafted:
    (folder / "sizes.csv").write_bytes((GOOD / "sizes.csv").read_bytes())
    (folder / "mine.piece").write_text(text)
    return draft_and_check(asked(str(folder / "mine.piece")))


def towards(made: Drafted, piece: str) -> dict[str, list[str]]:
    found = made.garment.piece(piece)
    darts: list[Takeup | InnerDart] = [*found.takeups, *found.inner_darts]
    return {dart.name: [part.edge for part in edges_towards(dart, found, made.garment)] for dart in darts}


def booklet(made: Drafted) -> str:
    data = booklet_pdf(BookletFacts(made, tuple(range(len(made.garment.sizes))), Wording()))
    return " ".join(" ".join(text_of(data, page) for page in range(page_count(data))).split())


def test_a_dart_pressed_towards_a_point_names_the_edge_on_that_side(tmp_path: Path) -> None:
    text = (GOOD / "pressed_darts.piece").read_text() + JOIN
    made = drafted(tmp_path, text)
    assert towards(made, "front") == {
        "bust_dart": ["waist"],
        "waist_dart": ["centre"],
        "side_dart": ["side"],  # the armpit lies on the side where the waist ends
        "low_dart": ["armhole"],
    }
    assert "Press the dart “side dart” towards the edge marked A" in booklet(made)
    back = drafted(tmp_path, text.replace("pressed towards armpit", "pressed towards waist_middle"))
    assert towards(back, "front")["side_dart"] == ["centre"]
    other = drafted(tmp_path, text.replace("pressed towards armhole", "pressed towards neck"))
    assert towards(other, "front")["low_dart"] == ["armhole"]


def test_all_parts_of_an_edge_that_seams_divide_are_named(tmp_path: Path) -> None:
    text = (GOOD / "pressed_darts.piece").read_text()
    text = text.replace("        foot  ", "        half  on side: 50 % from side_low\n        foot  ")
    text = text.replace("pressed towards armpit", "pressed towards side")
    text = text.replace("sewn length of front.side", "sewn length of front.side / 2") + PARTED
    found = towards(drafted(tmp_path, text), "front")
    assert found["side_dart"] == ["side from side_low to half", "side from half to armpit"]


@pytest.mark.parametrize(("way", "edge"), [("hip", "side"), ("waist_side", "side"), ("waist_centre", "centre")])
def test_a_dart_inside_a_piece_names_the_edge_that_its_line_meets(tmp_path: Path, way: str, edge: str) -> None:
    text = (GOOD / "inner_darts.piece").read_text().replace("pressed towards centre", f"pressed towards {way}")
    made = drafted(tmp_path, text)
    assert towards(made, "front")["waist_dart"] == [edge]
    assert "Press the dart" in booklet(made)


def test_an_edge_that_the_cut_piece_has_not_leads_to_the_side_where_it_lay(tmp_path: Path) -> None:
    for name in ("bodice_block.piece", "block.csv"):
        (tmp_path / name).write_bytes((GOOD / name).read_bytes())
    text = (GOOD / "shawl_collar.piece").read_text()
    made = drafted(tmp_path, text.replace("        close bust_dart, into waist_dart\n", ""))
    found, edges = towards(made, "front"), [edge.name for edge in made.garment.piece("front").edges]
    assert "centre" not in edges, "it lies inside, a lap away from the front edge"
    assert set(found) == {"bust_dart", "waist_dart"} and {edge for some in found.values() for edge in some} <= set(
        edges
    )
    assert "Press the dart" in booklet(made)
