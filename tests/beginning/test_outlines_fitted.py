"""Outlines made into pieces: shapes whose truth is known in closed form, the bundled patterns, and bad drawings."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.base.notes import Problems
from draft.beginning.begun import WITHIN, Begun, Outlines, begin
from draft.beginning.piece_written import distance_apart
from draft.drafting.checked import draft_and_check
from draft.exchange.cutter import Machine, cutter_files
from draft.exchange.dxf import dxf_files
from draft.garment.garment import Garment, Piece
from draft.geometry.flatten import flatten
from draft.pack.printed_files import svg_files
from draft.paper.piece.piece_lines import FLIP
from draft.paper.piece.piece_lines import Outlines as PieceOutlines
from tests.asking import asked, bundled
from tests.beginning.drawings import begun, circle, polygon


def drafted(found: Begun, folder: Path) -> Garment:
    (folder / "mine.piece").write_text(found.text, encoding="utf-8")
    return draft_and_check(asked(folder / "mine.piece")).garment


def outline(piece: Piece) -> Floats:
    return np.concatenate([edge.segments[0] for edge in piece.edges])


def middle(path: Floats) -> Floats:
    """The middle of what an outline encloses: it hardly moves with any one of its points."""
    import shapely

    return shapely.get_coordinates(shapely.Polygon(flatten(path, 0.01)).centroid)[0]


def best_shift(piece: Piece, again: Piece) -> Floats:
    """From where a piece was begun to where it was drafted."""
    return middle(outline(piece)) - middle(outline(again))


def off_circle(garment: Garment, radius: float) -> float:
    points = flatten(outline(garment.pieces[0]), 0.001)
    centre = np.linalg.lstsq(np.c_[2 * points, np.ones(len(points))], (points**2).sum(axis=1), rcond=None)[0][:2]
    return float(np.abs(np.hypot(*(points - centre).T) - radius).max())


@pytest.mark.parametrize("radius", [30.0, 150.0])
def test_a_circle_comes_back_round(tmp_path: Path, radius: float) -> None:
    found = begun(tmp_path, f'<circle cx="200" cy="200" r="{radius}"/>')
    assert found.pieces[0].off <= WITHIN and found.pieces[0].curves <= 8
    assert off_circle(drafted(found, tmp_path), radius) <= WITHIN


@pytest.mark.parametrize("count", [200, 5000])
def test_points_on_a_circle_are_told_from_corners(tmp_path: Path, count: int) -> None:
    found = begun(tmp_path, polygon(circle(count)))
    assert found.pieces[0].straight == 0 and found.pieces[0].curves <= 12
    assert off_circle(drafted(found, tmp_path), 100.0) <= WITHIN + 0.03


def test_a_polygon_has_its_corners_and_straight_edges(tmp_path: Path) -> None:
    corners = np.array([[10, 10], [310, 10], [316, 300], [160, 420], [10, 300]])
    found = begun(tmp_path, polygon(corners))
    assert (found.pieces[0].straight, found.pieces[0].curves) == (5, 0)
    points = np.array([edge.segments[0, 0, 0] for edge in drafted(found, tmp_path).pieces[0].edges])
    apart = np.hypot(*(points[:, None] - points[None]).transpose(2, 0, 1))
    truth = np.hypot(*(corners[:, None] - corners[None]).transpose(2, 0, 1))
    assert sorted(apart.ravel()) == pytest.approx(sorted(truth.ravel()), abs=0.15)


def test_loose_ends_are_joined_and_told(tmp_path: Path) -> None:
    inside = (
        '<path d="M0 0H200"/><path d="M200.3 0V300"/><path d="M0 300H200.1"/><line x1="0" y1="0.2" x2="0" y2="300"/>'
    )
    found = begun(tmp_path, inside + '<path d="M50 0V40"/>')
    assert len(found.pieces[0].edges) == 4
    assert any("up to 0.30 mm apart were joined" in note.message for note in found.notes)


def test_a_line_across_two_pieces_leads_nobody_inwards(tmp_path: Path) -> None:
    inside = (
        '<path d="M0 0H200"/><path d="M200 0V300"/><path d="M200 300H0"/><path d="M0 300V0"/><path d="M0 0L200 300"/>'
    )
    found = begun(tmp_path, inside)
    assert (len(found.pieces), found.pieces[0].straight) == (1, 4)


def test_pieces_have_their_names_and_grain(tmp_path: Path) -> None:
    inside = (
        '<g id="Vorderteil links"><path d="M0 0H200V300H0z"/></g><path id="back" d="M300 0H500V300H300z"/>'
        '<g id="grain"><path d="M310 290L390 10"/></g><path id="path8" d="M0 400h150v90h-150z"/>'
        '<text x="20" y="450">\u00c4rmel 2</text><path d="M400 600h150v90h-150z"/>'
    )
    found = begun(tmp_path, inside)
    assert {piece.name for piece in found.pieces} == {"vorderteil_links", "back", "armel_2", "piece_4"}
    assert "grain 74.05 deg above across" in " ".join(found.text.split())


def test_half_of_a_symmetric_piece_lies_on_the_fold(tmp_path: Path) -> None:
    inside = '<path id="yoke" d="M100 100Q200 180 300 100L340 160Q200 260 60 160Z"/>'
    whole, half = begun(tmp_path, inside), begun(tmp_path, inside, fold=True)
    assert half.pieces[0].on_fold and not whole.pieces[0].on_fold
    points = outline(drafted(half, tmp_path).pieces[0]).reshape(-1, 2)
    assert np.ptp(points[:, 0]) == pytest.approx(140, abs=WITHIN)
    with pytest.raises(Problems, match=r"is no mirror image of itself: its halves differ by \d"):
        begun(tmp_path, '<path d="M0 0H200V300L20 290Z"/>', fold=True)


def test_the_sewing_line_lies_within_the_allowance(tmp_path: Path) -> None:
    found = begun(tmp_path, '<path id="flap" d="M0 0H200V300H0z"/>', included=10.0, allowance="1 cm")
    piece = drafted(found, tmp_path).pieces[0]
    assert np.ptp(outline(piece).reshape(-1, 2), axis=0) == pytest.approx([180, 280], abs=0.02)
    assert "allowance  1 cm" in found.text and "within the allowance" in found.text
    with pytest.raises(Problems, match="no one outline is left"):
        begun(tmp_path, '<path d="M0 0H200V15H0z"/>', included=10.0)


@pytest.mark.parametrize(
    ("inside", "why"),
    [
        (
            '<path d="M10,10 H200 V300 H12"/>',
            r"668 mm long is open: it ends at 10.0, 10.0 mm and at 12.0, 300.0",
        ),
        ('<path d="M0 0L100 100L100 0L0 100z"/>', r"crosses itself at 50.0, 50.0 mm"),
        ('<rect width="3" height="4"/>', "lie within less than 1 cm"),
        ('<rect width="20000" height="400"/>', "a piece of this drawing is 20.0 m long"),
        ('<image href="x.png"/>', "the drawing holds no lines"),
        ("".join(f'<rect x="{40 * k}" width="30" height="30"/>' for k in range(101)), "holds 101 pieces"),
    ],
)
def test_what_is_no_outline_is_told(tmp_path: Path, inside: str, why: str) -> None:
    with pytest.raises(Problems, match=why):
        begun(tmp_path, inside)


def test_an_unknown_unit_or_layer_is_asked_for(tmp_path: Path) -> None:
    square = '<g id="seam"><rect width="20" height="30"/></g>'
    with pytest.raises(Problems, match="does not say in what unit"):
        begun(tmp_path, square, 'viewBox="0 0 60 60"')
    assert begun(tmp_path, square, 'viewBox="0 0 60 60"', unit="cm").text.count("20 cm") == 2
    with pytest.raises(Problems, match="no layer or group called `cut`"):
        begun(tmp_path, square, layers=("cut",))


def test_an_open_outline_is_closed_where_that_is_asked_for(tmp_path: Path) -> None:
    found = begun(tmp_path, '<path d="M10,10 H200 V300 H10"/>', close=True)
    assert found.pieces[0].straight == 4


@pytest.mark.slow
def test_a_rough_outline_is_kept_by_as_well_as_can_be_and_told(tmp_path: Path) -> None:
    chance = np.random.default_rng(1)
    ragged = circle(400) + chance.normal(0.0, 0.7, (400, 2))
    found = begun(tmp_path, polygon(ragged[np.argsort(np.arctan2(*(ragged - 200).T[::-1]))]))
    assert found.pieces[0].off < 3


# ---- the bundled patterns, there and back

FROM_SVG = [("marlpit", "M")]
ALL = [(name, size) for name in ("marlpit", "lockside", "tidemill") for size in ("XS", "M", "3XL")]


def sewn_there_and_back(name: str, size: str, folder: Path) -> list[tuple[str, float, int, int]]:
    """Each piece with how far its sewing line strays from the one that was drafted, and the curves of both."""
    garment = bundled(name, size).to_cut
    (folder / "there.svg").write_bytes(next(iter(svg_files(garment).values())))
    found = begin(folder / "there.svg", Outlines("back"))
    again = drafted(found, folder)
    rows = []
    for piece in garment.pieces:
        mine, theirs = outline(again.piece(piece.name)), outline(piece)
        shift = best_shift(piece, again.piece(piece.name))
        told = next(one for one in found.pieces if one.name == piece.name)
        curves = sum(len(edge.segments[0]) for edge in piece.edges if not edge.on_fold)
        rows.append((piece.name, distance_apart(mine + shift, theirs), told.curves, curves))
    return rows


@pytest.mark.parametrize(("name", "size"), FROM_SVG)
def test_a_bundled_pattern_comes_back_from_its_drawing(name: str, size: str, tmp_path: Path) -> None:
    rows = sewn_there_and_back(name, size, tmp_path)
    assert max(row[1] for row in rows) <= WITHIN
    assert all(mine <= theirs for _, _, mine, theirs in rows)


@pytest.mark.slow
@pytest.mark.parametrize(("name", "size"), ALL)
def test_every_piece_comes_back_from_its_drawing(name: str, size: str, tmp_path: Path) -> None:
    rows = sewn_there_and_back(name, size, tmp_path)
    for piece, off, mine, theirs in rows:
        print(f"{name} {size} {piece}: {off:.3f} mm, {mine} curves, drafted in {theirs} cubics")
    assert max(row[1] for row in rows) <= WITHIN


def cut_there_and_back(name: str, size: str, folder: Path) -> list[tuple[str, float]]:
    """Each piece from its DXF file, with how far its outline strays from the cutting line that was drawn."""
    garment = bundled(name, size).to_cut
    (folder / "there.dxf").write_bytes(dxf_files(garment)[f"dxf/{size}.dxf"])
    found = begin(folder / "there.dxf", Outlines("back"))
    again, rows = drafted(found, folder), []
    for made, piece in zip(found.pieces, garment.pieces, strict=True):
        mine = outline(again.piece(made.name))
        theirs = PieceOutlines.of(garment, piece, 0).cutting * FLIP
        shift = middle(theirs) - middle(mine)
        rows.append((piece.name, distance_apart(mine + shift, theirs)))
    return rows


@pytest.mark.slow
@pytest.mark.parametrize(("name", "size"), ALL)
def test_every_cutting_line_comes_back_from_its_dxf(name: str, size: str, tmp_path: Path) -> None:
    """The file has points within 0.1 mm of the curve: what is drawn through them may stray by that once more."""
    rows = cut_there_and_back(name, size, tmp_path)
    for piece, off in rows:
        print(f"{name} {size} {piece}: {off:.3f} mm")
    assert max(off for _, off in rows) <= 2 * WITHIN


@pytest.mark.slow
def test_bare_outlines_come_back_on_the_fold(tmp_path: Path) -> None:
    garment = bundled("marlpit", "M").to_cut
    (tmp_path / "there.svg").write_bytes(next(iter(cutter_files(garment, Machine(None, "none")).values())))
    found = begin(tmp_path / "there.svg", Outlines("mine", fold=True, included=12.7))
    assert {piece.name for piece in found.pieces} == {piece.name for piece in garment.pieces}
    assert all(piece.on_fold and piece.off <= WITHIN for piece in found.pieces)


@pytest.mark.parametrize(
    ("path", "said"),
    [
        ("M0 0L1e200 0L5 1e200Z", "runs beyond 100 m"),
        ("M0 0L200000 0L5 300Z", "runs beyond 100 m"),
        ("M0 0" + "".join(f"L{k % 97} {k % 89}" for k in range(60_000)) + "Z", "parts, more than 50,000"),
    ],
    ids=["as far as numbers go", "200 m", "many parts"],
)
def test_what_runs_for_miles_is_refused_before_it_is_fitted(tmp_path: Path, path: str, said: str) -> None:
    file = tmp_path / "miles.svg"
    size = 'width="100mm" height="100mm" viewBox="0 0 100 100"'
    file.write_text(f'<svg xmlns="http://www.w3.org/2000/svg" {size}><path d="{path}"/></svg>')
    with pytest.raises(Problems, match=said):
        begin(file, Outlines("mine", "Mine"))
