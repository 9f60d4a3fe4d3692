"""What a designer sees of her text: lines in all sizes, combs, construction, joins walked, two versions."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from draft.base.notes import Problems
from draft.base.resources import folder
from draft.drafting.checked import draft_and_check
from draft.drafting.request import Request, Whom
from draft.geometry.length import length
from draft.page.bench import Bench
from draft.page.designing import VERBS
from draft.page.sewing import VERBS as SEWING
from draft.paper.piece.piece_lines import Outlines
from draft.plan.library import bundled_files

BENCH = Bench()
MARLPIT = (folder("pieces") / "marlpit.piece").read_text("utf-8")


def ask(verb: str, text: str = MARLPIT, **asked: object) -> dict:
    return VERBS[verb]({"garment": "marlpit", "text": text, **asked}, BENCH)


def ends(path: str) -> tuple[list[float], list[float]]:
    """The first and the last place of a path."""
    numbers = [float(number) for number in re.findall(r"-?[\d.]+(?:e-?\d+)?", path)]
    return numbers[:2], numbers[-2:]


def test_every_edge_begins_ends_and_is_as_long_as_it_was_drafted() -> None:
    garment = draft_and_check(Request("marlpit")).garment
    found = ask("nest")
    assert found["sizes"] == list(garment.sizes) and not found["failed"]
    assert [piece["name"] for piece in found["pieces"]] == [piece.name for piece in garment.pieces]
    for piece, told in zip(garment.pieces, found["pieces"], strict=True):
        for edge, drawn in zip(piece.edges, told["edges"], strict=True):
            assert drawn["name"] == edge.name and drawn["fold"] == edge.on_fold
            assert np.allclose(drawn["length"], length(edge.segments), atol=0.006)
            for body, path in enumerate(drawn["d"]):
                first, last = ends(path)
                assert np.allclose(first, edge.segments[body, 0, 0] * [1, -1], atol=0.006)
                assert np.allclose(last, edge.segments[body, -1, 3] * [1, -1], atol=0.006)


def test_places_lead_to_the_lines_where_things_are_written() -> None:
    back = next(piece for piece in ask("nest")["pieces"] if piece["name"] == "back")
    neckline = next(edge for edge in back["edges"] if edge["name"] == "neckline")
    at = neckline["at"]
    assert MARLPIT[at["start"] :].startswith("neckline  neck_centre to neck   straight to neck_turn")
    assert MARLPIT.split("\n")[at["line"] - 1].split()[0] == "neckline"
    band = next(piece for piece in ask("nest")["pieces"] if piece["name"] == "neckband")
    assert band["edges"][0]["at"] == {"file": "bands.piece", "line": band["edges"][0]["at"]["line"]}


def test_places_count_as_a_browser_does() -> None:
    text = "# \N{BLACK SCISSORS}\N{GRINNING FACE}\n" + MARLPIT
    at = ask("nest", text)["pieces"][0]["at"]
    start = at["start"]
    assert text.encode("utf-16-le")[2 * start : 2 * start + 20].decode("utf-16-le") == "piece back"
    assert start == ask("nest")["pieces"][0]["at"]["start"] + 6


def test_one_size_and_one_person_are_drafted_alone() -> None:
    assert ask("nest", sizes=["M"])["sizes"] == ["M"]
    taken = {"bust_girth": "104 cm", "waist_girth": "90 cm", "hip_girth": "110 cm", "stature": "1.6 m"}
    her = ask("nest", measures=taken)
    assert len(her["sizes"]) == 1
    answers = tuple(f"{name}={value}" for name, value in taken.items())
    edge = draft_and_check(Request("marlpit", Whom(answers=answers))).garment.pieces[0].edges[0]
    assert np.allclose(her["pieces"][0]["edges"][0]["length"], length(edge.segments), atol=0.006)


def test_someone_whose_measures_are_kept_is_drafted_for(tmp_path: Path) -> None:
    bench = Bench(people=tmp_path)
    taken = {"bust_girth": "104 cm", "waist_girth": "90 cm", "hip_girth": "110 cm", "stature": "160 cm"}
    taken["shoulder_slope"] = "24 deg"
    (kept,) = SEWING["keep_person"]({"name": "Ines", "measures": taken}, bench)["people"]
    hers, same = (ask("nest", measures=measures) for measures in (kept["measures"], taken))
    assert hers == same


def test_another_chart_of_the_bundle_can_be_looked_at_and_no_other_file() -> None:
    with pytest.raises(Problems):
        ask("nest", sizes=["no such size"])
    assert ask("nest", chart="../../etc/passwd")["sizes"] == ask("nest")["sizes"]


def test_a_text_with_a_mistake_is_not_drawn_and_the_mistake_is_told() -> None:
    with pytest.raises(Problems) as told:
        ask("nest", MARLPIT.replace("neck_turn, curve evenly arriving", "nock_turn, curve evenly arriving", 1))
    assert "nock_turn" in str(told.value)


def test_a_body_that_cannot_be_drafted_has_no_lines_and_its_neighbours_have() -> None:
    text = (
        'pattern bib\n    chart "women.csv"\nbody\n    bust_girth\n'
        "piece front\n    points\n        a  at 0, 0\n        b  at 20 cm, 0\n"
        "        c  strike bust_girth * 50 % - 40 cm from b to a heading up going up\n"
        "    outline\n        one  a to b straight\n        two  b to c straight\n        three  c to a straight\n"
        "    cut 1\n"
    )
    found = VERBS["nest"]({"text": text}, BENCH)
    assert found["failed"] and set(found["failed"]) < set(found["sizes"])
    edge = found["pieces"][0]["edges"][1]
    for name, path, long in zip(found["sizes"], edge["d"], edge["length"], strict=True):
        assert (path == "") == (long is None) == (name in found["failed"])


@pytest.mark.parametrize("name", [n for n, f in bundled_files().items() if "\npattern " in "\n" + f.read_text("utf-8")])
def test_every_pattern_of_the_bundle_is_drawn_walked_and_looked_over(name: str) -> None:
    asked = {"garment": name, "text": bundled_files()[name].read_text("utf-8"), "sizes": ["M"]}
    found = VERBS["nest"](asked, BENCH)
    for piece in found["pieces"]:
        assert all(path for edge in piece["edges"] for path in edge["d"])
        assert piece["box"][0] < piece["box"][2] and piece["box"][1] < piece["box"][3]
    cut = VERBS["cutting"](asked, BENCH)["pieces"]
    assert all(cut[piece["name"]]["cut"][0].startswith("M") for piece in found["pieces"])
    for join in found["joins"]:
        walked = VERBS["walk"]({**asked, "join": join["name"]}, BENCH)
        assert walked["fits"] and walked["first"] and walked["second"]
    assert all(note["severity"] != "error" for note in VERBS["checks"](asked, BENCH)["notes"])
    assert VERBS["construction"](asked, BENCH)["sheets"] and VERBS["combs"](asked, BENCH)["pieces"].keys() == cut.keys()


def test_cutting_lines_and_notches_are_those_on_paper() -> None:
    garment = draft_and_check(Request("marlpit")).garment
    told = ask("cutting")["pieces"]
    for piece in garment.pieces:
        for body in range(len(garment.sizes)):
            one = Outlines.of(garment, piece, body)
            first, _ = ends(told[piece.name]["cut"][body])
            assert np.allclose(first, one.cutting_edges[0][1][0, 0], atol=0.006)
            assert sum(1 for path in told[piece.name]["notches"][body] if path) == len(one.notch_strokes)


def test_a_change_redraws_the_cutting_lines_that_it_changes() -> None:
    before = ask("cutting")["pieces"]
    after = ask("cutting", MARLPIT.replace("allowance 1 in, turned up", "allowance 2 in, turned up"))["pieces"]
    assert before["neckband"] == after["neckband"] and before["front"]["cut"] != after["front"]["cut"]


def test_combs_stand_on_curves_alone() -> None:
    found = ask("combs", size="M")["pieces"]
    assert {comb["edge"] for comb in found["front"]} >= {"neckline", "underarm"}
    assert not found["neckband"] and all(comb["teeth"].count("M") > 3 for comb in found["front"])


def test_construction_shows_blocks_and_the_paper_before_it_was_moved() -> None:
    text = bundled_files()["netloft"].read_text("utf-8")
    sheets = VERBS["construction"]({"garment": "netloft", "text": text, "size": "M"}, BENCH)["sheets"]
    blocks = [sheet for sheet in sheets if sheet["block"]]
    assert blocks and all(edge["d"] for block in blocks for edge in block["edges"])
    assert any(sheet["before"] for sheet in sheets)


def test_a_join_walked_says_both_lengths_and_what_matches() -> None:
    found = ask("walk", join="neck")
    assert found["fit"] == "stretched" and found["fits"]
    assert [each["edge"] for each in found["second"]] == ["neckline", "neckline"]
    ratio = np.divide(found["lengths"][0], found["lengths"][1])
    assert np.all(ratio < 1) and np.allclose(found["lengths"][0], found["wanted"], atol=0.02)
    assert found["matches"]
    with pytest.raises(Problems):
        ask("walk", join="no such join")


def test_two_versions_tell_what_has_moved() -> None:
    changed = MARLPIT.replace("scoop 3 cm, boat 6 cm", "scoop 4 cm, boat 6 cm")
    found = ask("compare", changed, other=MARLPIT)
    moved = {(row["piece"], row["edge"]) for row in found["changed"]}
    assert ("front", "neckline") in moved and ("front", "hem") not in moved
    assert [edge["d"] for edge in found["pieces"]["front"]] == [
        edge["d"] for piece in ask("nest")["pieces"] if piece["name"] == "front" for edge in piece["edges"]
    ]
