"""Testers: their sheets, what comes back from any spreadsheet or viewer, and what it says of the draft."""

from __future__ import annotations

import io
import json
import random
import subprocess
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2
import pytest
from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pikepdf.form import Form
from scipy.stats import binomtest

from draft.base.notes import Note, Problems
from draft.command.main import commands
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request, Whom
from draft.pack.pack import printing_for
from draft.pack.studio_paper import studio_paper
from draft.paper.booklet import BookletFacts
from draft.release.feedback_questions import Questions, questions
from draft.release.feedback_sheet import SHEET, feedback_files
from draft.release.figures_behind import FigureBehind, figures_behind, look_at
from draft.release.releasing import Asked, release
from draft.release.replies_laid import RepliesLaid, laid_over, wilson
from draft.release.replies_read import Reply, of_other_versions, read_replies
from draft.release.replies_told import RepliesTold, replies_data, replies_report, with_figures
from tests.command.run import Runner
from tests.release.publishing_studio import publishing_studio


@pytest.fixture(scope="module")
def pattern(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return publishing_studio(tmp_path_factory.mktemp("withy")) / "gorse.piece"


@pytest.fixture(scope="module")
def drafted(pattern: Path) -> Drafted:
    return draft_and_check(Request(str(pattern)))


@pytest.fixture(scope="module")
def asked(drafted: Drafted) -> Questions:
    return questions(drafted)


@pytest.fixture(scope="module")
def sheets(drafted: Drafted) -> Mapping[str, bytes]:
    """The files for testers, in English with inches for measures, and in German."""
    assert drafted.planned
    found = {}
    for code in ("en", "de"):
        printing, _ = printing_for(drafted, studio_paper(drafted.planned.studio, code))
        files = feedback_files(BookletFacts(drafted, (0, 1), printing.wording, (), None, printing.imprint.face))
        found |= {f"{code}/{name}": data for name, data in files.items()}
    return found


def _filled(data: bytes, said: Mapping[str, str]) -> bytes:
    """A sheet filled in by a general library."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        form = Form(pdf)
        for name, value in said.items():
            field = form[name]
            if field.is_radio_button:
                field.value = pikepdf.Name(f"/{value}")
            elif field.is_checkbox:
                field.checked = True
            else:
                field.value = value
        out = io.BytesIO()
        pdf.save(out)
        return out.getvalue()


SAID = {
    "tester": "Ann", "bust_girth cm": "95,5", "waist_girth cm": "30 in", "room bust": "3", "room waist": "5",
    "length front_length": "2", "pulls bust": "Yes", "again": "yes", "words": "Lovely.",
}  # fmt: skip


# ---- sheets ---------------------------------------------------------------------------------------------------------


def test_a_sheet_asks_about_every_level_and_length(asked: Questions, sheets: Mapping[str, bytes]) -> None:
    assert [room.name for room in asked.rooms] == ["bust", "waist", "hip", "upper_arm", "cuff"]
    assert asked.measures == ("bust_girth", "waist_girth", "hip_girth", "upper_arm_girth")
    made = ("feedback-M.pdf", "feedback-L.pdf", "replies.csv")
    assert set(sheets) == {f"{code}/{name}" for code in ("en", "de") for name in made}
    with pikepdf.open(io.BytesIO(sheets["en/feedback-M.pdf"])) as pdf:
        names = [str(field.T) for field in pdf.Root.AcroForm.Fields]
    assert set(names) == {*asked.columns, SHEET} - {"size", "version"}
    assert sheets["en/replies.csv"].decode().splitlines()[0].split(",") == list(asked.columns)


def test_every_field_has_a_label_an_appearance_and_its_place_in_the_reading_order(sheets: Mapping[str, bytes]) -> None:
    with pikepdf.open(io.BytesIO(sheets["de/feedback-M.pdf"])) as pdf:
        assert "/NeedAppearances" not in pdf.Root.AcroForm
        widgets = [(page, widget) for page in pdf.pages for widget in page.Annots]
        for page, widget in widgets:
            assert page.Tabs == "/S" and str(widget.TU) and "/N" in widget.AP
            assert (int(widget.F) & 2) or "/StructParent" in widget  # but for the hidden one
        told = [str(widget.TU) for _, widget in widgets]
    assert "Taille: 15 cm: viel zu weit" in told and "Es spannt oder steht ab: Hüfte" in told


@pytest.mark.parametrize("viewer", ["pdfium", "poppler"])
def test_what_is_chosen_shows_in_viewers(sheets: Mapping[str, bytes], tmp_path: Path, viewer: str) -> None:
    plain = sheets["en/feedback-M.pdf"]
    pictures = [_shown(data, viewer, tmp_path) for data in (plain, _filled(plain, SAID))]
    with pikepdf.open(io.BytesIO(plain)) as pdf:
        by_name = {str(field.T): field for field in pdf.Root.AcroForm.Fields}
        boxes = {step: by_name["room waist"].Kids[step - 1].Rect for step in (1, 5)}
        high = float(pdf.pages[0].MediaBox[3])
    for step, box in boxes.items():
        left, low, right, top = (float(side) for side in box)
        parts = [picture[int(high - top) : int(high - low), int(left) : int(right)] for picture in pictures]
        assert parts[0].min() < 200  # the ring
        assert (parts[1].mean() < parts[0].mean() - 20) == (step == 5)


def _shown(data: bytes, viewer: str, folder: Path) -> np.ndarray:  # type: ignore[type-arg]
    """The first page in grey, a point a pixel."""
    if viewer == "pdfium":
        with pypdfium2.PdfDocument(data) as pdf:
            pdf.init_forms()
            return np.asarray(pdf[0].render(scale=1, may_draw_forms=True).to_pil().convert("L"))
    from PIL import Image

    (folder / "sheet.pdf").write_bytes(data)
    subprocess.run(["pdftoppm", "-r", "72", "-l", "1", "-png", folder / "sheet.pdf", folder / "sheet"], check=True)
    return np.asarray(Image.open(next(folder.glob("sheet-*.png"))).convert("L"))


def test_a_filled_sheet_is_read(sheets: Mapping[str, bytes], asked: Questions, tmp_path: Path) -> None:
    (tmp_path / "ann.pdf").write_bytes(_filled(sheets["en/feedback-M.pdf"], SAID))
    (tmp_path / "empty.pdf").write_bytes(sheets["de/feedback-L.pdf"])
    (tmp_path / "junk.pdf").write_bytes(b"%PDF-1.4 junk")
    found, notes = read_replies([tmp_path], asked)
    (ann,) = found
    assert (ann.tester, ann.size, ann.version, ann.again, ann.words) == ("Ann", "M", "1.0", "yes", "Lovely.")
    assert ann.measures == pytest.approx({"bust_girth": 955.0, "waist_girth": 762.0})
    assert ann.rooms == {"bust": 3, "waist": 5} and ann.lengths == {"front_length": 2} and ann.pulls == ("bust",)
    assert [note.message for note in notes] == ["`junk.pdf` is no sheet that was filled in, and is left out"]


def test_the_release_for_testers_holds_their_sheets_and_no_listing(pattern: Path, tmp_path: Path) -> None:
    found = release(str(pattern), tmp_path, Asked(pages=(), testers=True))
    assert found.folder.name == "gorse-1.0-testers"
    assert {"feedback/en/feedback-M.pdf", "feedback/en/replies.csv", "packs/en/booklet.html"} < set(found.files)
    assert not [name for name in found.files if name.startswith("listing")]


# ---- tables ---------------------------------------------------------------------------------------------------------

PLAIN = """tester,size,bust_girth cm,waist_girth cm,room bust,room waist,length front_length,pulls bust,again,words
Ann,M,95.5,76.2,3,5,2,yes,yes,Lovely.
Bea,L,104,,2,4,,,no,
"""


def _read(folder: Path, data: bytes, asked: Questions) -> tuple[list[Reply], list[Note]]:
    (folder / "replies.csv").write_bytes(data)
    return read_replies([folder / "replies.csv"], asked)


def _facts(replies: Sequence[Reply]) -> list[object]:
    found = []
    for one in replies:
        measures = {name: round(mm, 3) for name, mm in one.measures.items()}
        found.append((one.tester, one.size, measures, one.rooms, one.lengths, one.pulls, one.again, one.words))
    return found


def test_a_table_of_another_country_says_the_same(asked: Questions, tmp_path: Path) -> None:
    """Semicolons, decimal commas, a byte order mark, other columns' order and units, the scale in words, as German."""
    plain, _ = _read(tmp_path, PLAIN.encode(), asked)
    other = (
        "Size;Tester;Waist girth (in);Bust Girth cm;room waist;Room Bust;words;Length front length;again;pulls bust\n"
        'm;Ann;30;"95,5";viel zu weit;richtig;Lovely.;etwas kurz;ja;x\n'
        "L;Bea;;104,0;a little wide;2;;;nein;\n"
    )
    for data in (other.encode("utf-8-sig"), other.encode("utf-16"), other.replace("\n", "\r\n").encode()):
        found, notes = _read(tmp_path, data, asked)
        assert _facts(found) == _facts(plain) and not notes


def test_what_cannot_be_counted_is_told_with_its_place_and_the_rest_is(asked: Questions, tmp_path: Path) -> None:
    rows = "size,room bust,bust_girth cm,shoe\nM,3,94,38\nXXL,3,94,38\nL,7,930,38\n,,,\n"
    found, notes = _read(tmp_path, rows.encode(), asked)
    assert [(one.size, one.rooms, one.measures) for one in found] == [
        ("M", {"bust": 3}, {"bust_girth": 940.0}),
        ("L", {}, {}),
    ]
    assert [note.message for note in notes] == [
        "`replies.csv`: nothing is known of `shoe`: left out",
        "line 3 of `replies.csv` is left out: `XXL` is no size of this pattern",
        "line 4 of `replies.csv`: `930` is nothing that `bust_girth` can be, and is left out",
        "line 4 of `replies.csv`: `7` is nothing that `room bust` can be, and is left out",
    ]
    assert notes[1].hints == ("choose from M, L",)


@pytest.mark.parametrize(
    ("text", "fact"),
    [("a,b\n1,2\n", "has no column `size`"), ("size,size\nM,L\n", "has the column `size` twice"), ("", "is empty")],
)
def test_a_table_of_something_else_is_told(asked: Questions, tmp_path: Path, text: str, fact: str) -> None:
    with pytest.raises(Problems, match=fact):
        _read(tmp_path, text.encode(), asked)


def test_a_reply_that_was_sent_twice_is_counted_once(asked: Questions, tmp_path: Path) -> None:
    found, notes = _read(tmp_path, (PLAIN + PLAIN.splitlines()[1] + "\n").encode(), asked)
    assert len(found) == 2 and "says the same as line 2" in notes[0].message


# ---- what they say --------------------------------------------------------------------------------------------------


def _ten(asked: Questions) -> list[Reply]:
    """Ten testers who want 8 to 11 cm at the waist, and are content at the bust."""
    found = []
    for k in range(10):
        size = asked.sizes[k % 2]
        waist = (77.0 if size == "M" else 86.0) * 10 + (k - 4) * 12  # of a chart's size, or somewhat off it
        had = {"M": 920.0, "L": 1010.0}[size] - waist
        step = 2 if had < 80 else 3 if had <= 110 else 4 if had < 160 else 5
        found.append(
            Reply(f"row {k}", f"t{k}", size, measures={"waist_girth": waist}, rooms={"waist": step, "bust": 3})
        )
    return found


@pytest.fixture(scope="module")
def laid(asked: Questions, drafted: Drafted) -> RepliesLaid:
    return laid_over(_ten(asked), asked, drafted)


def test_room_that_each_had_is_the_garment_less_her_own_body(laid: RepliesLaid) -> None:
    waist = {one.size: one for one in laid.felt if one.name == "waist"}
    assert waist["M"].asked == pytest.approx(150.0, abs=0.5)  # the style's figure
    assert waist["M"].had == pytest.approx([198.0, 174.0, 150.0, 126.0, 102.0], abs=1.0)
    assert waist["M"].counts == (0, 0, 1, 2, 2)


@pytest.fixture(scope="module")
def told(laid: RepliesLaid, drafted: Drafted) -> RepliesTold:
    return with_figures(drafted, laid)


def test_what_they_agree_on_is_told_with_the_figure_to_look_at(laid: RepliesLaid, told: RepliesTold) -> None:
    waist, bust = (next(one for one in laid.findings if one.name == name) for name in ("waist", "bust"))
    assert (waist.way, waist.agreed, bust.way, bust.agreed) == ("more", True, "right", True)
    assert [figure.name for figure in told.figures["waist"]] == ["waist_ease"] and "bust" not in told.figures
    text = replies_report(told)
    assert "waist: too wide for 8 of 10 (of all such people 49 to 94 %)" in text
    assert "look at `waist_ease` (marlpit.piece:" in text and "1 cm less moves it by -1.0 cm, and nothing else" in text


def test_the_figure_moves_what_the_style_itself_moves(pattern: Path, drafted: Drafted, told: RepliesTold) -> None:
    """What is found by turning the text's figure is what a reader gets who chooses that style."""
    size = told.drafted.garment.sizes[0]  # of most replies; of as many the first
    _moves_as_chosen(told.figures["waist"], "waist_ease", "16cm", (pattern, drafted, size))


@pytest.mark.slow
def test_other_figures_do_too(pattern: Path, drafted: Drafted) -> None:
    figures = figures_behind(drafted, "L")
    for level, style, typed in (("bust", "bust_ease", "7cm"), ("front_length", "hem_longer", "1cm")):
        _moves_as_chosen(look_at(level, False, figures), style, typed, (pattern, drafted, "L"))


def _moves_as_chosen(found: Sequence[FigureBehind], style: str, typed: str, of: tuple[Path, Drafted, str]) -> None:
    pattern, drafted, size = of
    figure = next(one for one in found if one.name == style)
    chosen = draft_and_check(Request(str(pattern), Whom(sizes=(size,)), {style: typed})).garment
    k = drafted.garment.sizes.index(size)
    before = {one.name: float(one.values[k]) for one in drafted.garment.finished}
    for one in chosen.finished:
        assert float(one.values[0]) - before[one.name] == pytest.approx(figure.moves.get(one.name, 0.0), abs=0.11)


def test_a_figure_at_the_end_of_its_range_is_not_named(drafted: Drafted, told: RepliesTold) -> None:
    """What cannot become less does not help where less is wanted: `front_longer` begins at nothing."""
    size = told.drafted.garment.sizes[0]
    figures = figures_behind(drafted, size)
    longer = next(figure for figure in figures if figure.name == "front_longer")
    assert longer.least and not longer.most and longer.moves["front_length"] > 0
    assert "front_longer" not in [one.name for one in look_at("front_length", True, figures)]
    assert "front_longer" in [one.name for one in look_at("front_length", False, figures)]


def test_what_only_the_larger_sizes_agree_on_is_told_with_their_names(asked: Questions, drafted: Drafted) -> None:
    felt = [("M", 3), ("M", 3), ("M", 3), ("M", 4), ("L", 2), ("L", 1), ("L", 2), ("L", 2)]
    found = laid_over(
        [Reply(f"row {k}", "", size, rooms={"bust": step}) for k, (size, step) in enumerate(felt)], asked, drafted
    )
    whole, large = found.findings
    assert not whole.agreed and (large.agreed, large.way, large.count, large.of, large.sizes) == (
        True,
        "less",
        4,
        4,
        ("L", "L"),
    )
    assert "bust in L: too tight for 4 of 4" in replies_report(with_figures(drafted, found))


def test_few_replies_agree_on_nothing(asked: Questions, drafted: Drafted) -> None:
    two = laid_over([Reply("a", "a", "M", rooms={"bust": 5}), Reply("b", "b", "L", rooms={"bust": 5})], asked, drafted)
    assert not two.findings[0].agreed
    assert "on nothing yet" in replies_report(with_figures(drafted, two))


@pytest.mark.parametrize(("count", "of"), [(0, 1), (1, 1), (2, 3), (8, 10), (5, 40)])
def test_the_interval_is_wilsons(count: int, of: int) -> None:
    """As scipy has it (Wilson 1927)."""
    ends = binomtest(count, of).proportion_ci(method="wilson")
    assert wilson(count, of) == pytest.approx((ends.low, ends.high), abs=1e-9)


def test_a_program_is_told_the_same_and_nobodys_words(asked: Questions, drafted: Drafted, told: RepliesTold) -> None:
    replies = [*_ten(asked), Reply("x", "Ann", "M", words="my hips!", elsewhere="neck", rooms={"hip": 1})]
    laid = laid_over(replies, asked, drafted)
    said = replies_data(RepliesTold(drafted, laid, told.figures))
    assert said["replies"] == 11
    waist = next(one for one in said["findings"] if one["name"] == "waist")
    assert (waist["felt"], waist["count"], waist["of"]) == ("more", 8, 10)
    assert waist["look_at"][0]["name"] == "waist_ease" and waist["look_at"][0]["moves_mm"]["waist"] == 10.0
    assert "Ann" not in json.dumps(said) and "hips" not in json.dumps(said)


def test_the_command_tells_it(
    pattern: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "replies.csv").write_text(PLAIN, encoding="utf-8")
    words = ["testers", str(tmp_path / "replies.csv"), "--pattern", str(pattern)]
    ran = CliRunner().invoke(commands, [*words, "--out", str(tmp_path / "felt")])
    assert ran.exit_code == 0 and "Gorse top 1.0: 2 replies, 1 of M, 1 of L" in ran.output
    assert (tmp_path / "felt" / "felt.csv").read_text("utf-8").startswith("what,name,size,asked mm")
    said = json.loads(Runner(monkeypatch, capsys)(*words, "--out", tmp_path / "felt", "--json").out)
    assert said["replies"] == 2 and [Path(one["file"]).name for one in said["written"]] == ["felt.csv"]


def test_replies_of_another_version_are_told(asked: Questions) -> None:
    replies = [Reply("a", "a", "M", version="0.9"), Reply("b", "b", "M", version="1.0"), Reply("c", "c", "M")]
    (note,) = of_other_versions(replies, "1.0")
    assert note.message == "1 of 3 replies are of version 0.9, and the pattern is 1.0"
    assert not of_other_versions(replies[1:], "1.0")


# ---- from anyone ----------------------------------------------------------------------------------------------------


@settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(
        st.sampled_from(
            [";", ",", "\n", '"', "size", "M", "room bust", "bust_girth cm", "3", "9,5", "\ufeff", "é", "="]
        )
    )
)
def test_an_odd_table_is_read_or_told(asked: Questions, tmp_path: Path, parts: list[str]) -> None:
    with suppress(Problems):
        found, notes = _read(tmp_path, "".join(parts).encode(), asked)
        assert all(reply.size in asked.sizes for reply in found) and all(note.message for note in notes)


def test_a_sheet_that_somebody_made_odd_is_read_or_left_out(
    sheets: Mapping[str, bytes], asked: Questions, tmp_path: Path
) -> None:
    """Bytes changed by chance, cut off, and fields that hold themselves."""
    whole = _filled(sheets["en/feedback-M.pdf"], SAID)
    chance = random.Random(5)
    for number in range(12):
        data = bytearray(whole)
        for _ in range(40):
            data[chance.randrange(len(data))] = chance.randrange(256)
        (tmp_path / f"odd-{number}.pdf").write_bytes(data[: chance.randrange(len(data))] if number % 3 == 0 else data)
    with pikepdf.open(io.BytesIO(whole)) as pdf:
        field = pdf.Root.AcroForm.Fields[0]
        field.Kids = pikepdf.Array([field])
        pdf.save(tmp_path / "ring.pdf")
    found, notes = read_replies([tmp_path], asked)
    assert len(found) + len(notes) <= 13 * 6 and all(reply.size in asked.sizes for reply in found)
    assert [note for note in notes if "is left out" in note.message]
