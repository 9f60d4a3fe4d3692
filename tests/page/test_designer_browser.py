"""The designer's leaf in a real browser: what she types, drags and clicks, and what she then sees."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from draft.base.resources import folder
from draft.page.editor_files import editor_files
from tests.page.conftest import page_started

MARLPIT = (folder("pieces") / "marlpit.piece").read_text("utf-8")
BIB = """\
pattern bib
    title "Bib"
    chart "women.csv"

body
    bust_girth

piece front
    points
        a  at 0, 0
        b  from a: 20 cm across
        c  at 22 cm, 25 cm
        d  from a: bust_girth / 4 up

    outline
        low     a to b   straight
        side    b to c   straight
        top     c to d   straight
        centre  d to a   straight

    cut 1
"""
RICH = pytest.param("rich", marks=pytest.mark.skipif(editor_files() is None, reason="npm has not put the editor here"))


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("designer") / "own.piece"


@pytest.fixture(scope="module")
def address(file: Path, browser: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    file.write_text(BIB)
    process, address = page_started(tmp_path_factory.mktemp("home"), str(file))
    yield address
    process.terminate()
    process.wait(20)


class Leaf:
    """A designer's leaf that is open."""

    def __init__(self, browser: Any, address: str, hash: str = "", plain: bool = False, **context: Any) -> None:
        self.context = browser.new_context(**{"viewport": {"width": 1300, "height": 850}, "locale": "en", **context})
        self.page = self.context.new_page()
        self.faults: list[str] = []
        self.page.on("pageerror", lambda fault: self.faults.append(str(fault)))
        self.page.on("console", lambda said: said.type == "error" and self.faults.append(said.text))
        if plain:
            self.page.route("**/editor/**", lambda route: route.abort())
        self.page.goto(address)
        if hash:
            place = self.page.url.split("#")[0]
            self.page.goto("about:blank")
            self.page.goto(place + hash)
        self.page.wait_for_selector("html[data-ready]", timeout=60_000)
        self.page.wait_for_selector(".sheet .sew.in-hand", state="attached", timeout=60_000)

    def write(self, text: str) -> None:
        """Put a text in the place of all that is there, as somebody types it."""
        place = ".cm-content" if self.page.query_selector(".cm-content") else ".plain-area"
        self.page.click(place)
        self.page.keyboard.press("Control+a")
        self.page.keyboard.press("Delete")
        self.page.keyboard.insert_text(text)

    def text(self) -> str:
        area = self.page.query_selector(".plain-area")
        if area:
            return str(area.input_value())
        return str(self.page.evaluate("document.querySelector('.cm-content').cmTile.view.state.doc.toString()"))

    def stand(self, words: str, inside: int = 0) -> None:
        """Put the cursor into some words of the text."""
        at = self.text().index(words) + inside
        area = self.page.query_selector(".plain-area")
        if area:
            area.evaluate(f"area => {{ area.focus(); area.setSelectionRange({at}, {at}); }}")
            self.page.keyboard.press("Shift")
            return
        view = "document.querySelector('.cm-content').cmTile.view"
        self.page.evaluate(f"{view}.focus(); {view}.dispatch({{selection: {{anchor: {at}}}, scrollIntoView: true}})")

    def path(self, key: str) -> str:
        return str(self.page.get_attribute(f'.hit[data-edge="{key}"]', "d"))

    def until(self, script: str) -> None:
        for _ in range(300):  # polled from here: the page's policy lets no text be run in it
            if self.page.evaluate(script):
                return
            self.page.wait_for_timeout(100)
        raise AssertionError(f"never so: {script}")

    def redrawn(self, key: str, before: str) -> str:
        """The path of an edge once it is another."""
        self.until(f"document.querySelector('.hit[data-edge=\"{key}\"]')?.getAttribute('d') !== '{before}'")
        return self.path(key)

    def done(self) -> None:
        faults = [fault for fault in self.faults if "ERR_FAILED" not in fault]
        self.context.close()
        assert not faults


@pytest.fixture(params=["plain", RICH])
def leaf(request: pytest.FixtureRequest, browser: Any, address: str, file: Path) -> Iterator[Leaf]:
    file.write_text(BIB)
    opened = Leaf(browser, address, plain=request.param == "plain")
    opened.until("document.title.startsWith('Bib')")
    yield opened
    opened.done()


def test_the_drawing_follows_what_is_typed_and_keeps_the_view(leaf: Leaf) -> None:
    before, view = leaf.path("front.side"), leaf.page.get_attribute(".sheet", "viewBox")
    element = leaf.page.query_selector('.hit[data-edge="front.side"]')
    leaf.write(BIB.replace("22 cm, 25 cm", "23 cm, 25 cm"))
    after = leaf.redrawn("front.side", before)
    assert after.endswith("L230.0 -250.0") and element.get_attribute("d") == after
    assert leaf.page.get_attribute(".sheet", "viewBox") == view


def test_what_was_opened_is_no_step_to_be_undone(leaf: Leaf) -> None:
    if leaf.page.query_selector(".plain-area"):
        pytest.skip("the browser's own undoing of a plain text area is its own")
    leaf.stand("22 cm", inside=5)
    leaf.page.keyboard.type(" # wide")
    assert leaf.text() != BIB
    for _ in range(4):
        leaf.page.keyboard.press("Control+z")
    leaf.until("document.querySelector('.cm-content').innerText.includes('22 cm, 25')")
    assert leaf.text() == BIB


def test_a_mistake_is_told_with_its_place_and_mended_by_a_click(leaf: Leaf) -> None:
    leaf.write(BIB.replace("b to c   straight", "b to c   strait"))
    leaf.page.wait_for_selector(".told.error .mend", timeout=30_000)
    assert "line 17" in leaf.page.inner_text(".told.error .line")
    assert leaf.page.query_selector(".sheet.stale") and leaf.path("front.side")
    leaf.page.click(".told.error .mend")
    leaf.until("!document.querySelector('.told.error') && !document.querySelector('.sheet.stale')")
    assert leaf.text() == BIB


def test_a_number_has_a_slider_and_steps_by_keys(leaf: Leaf) -> None:
    leaf.stand("20 cm across", 1)
    leaf.page.wait_for_selector(".number-slider", state="visible")
    before = leaf.path("front.low")
    leaf.page.keyboard.press("Alt+ArrowUp")
    assert leaf.redrawn("front.low", before).endswith("L201.0 0.0") or "L201.0 -0.0" in leaf.path("front.low")
    before = leaf.path("front.low")
    leaf.page.locator(".number-slider input").evaluate(
        "range => { range.value = 30; range.dispatchEvent(new Event('input', {bubbles: true})); }"
    )
    leaf.redrawn("front.low", before)
    assert "from a: 30 cm across" in leaf.text()


def test_a_point_is_dragged_and_the_text_follows(leaf: Leaf) -> None:
    box = leaf.page.locator('[data-point="front.c"]').bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    before = leaf.path("front.side")
    leaf.page.mouse.move(x, y)
    leaf.page.mouse.down()
    leaf.page.mouse.move(x + 30, y + 10, steps=6)
    leaf.redrawn("front.side", before)
    leaf.page.mouse.up()
    leaf.page.wait_for_timeout(400)
    across, up = re.search(r"c  at ([\d.]+) cm, ([\d.]+) cm", leaf.text()).groups()
    scale = leaf.page.evaluate("1 / document.querySelector('.sheet').getScreenCTM().a")
    assert abs(float(across) * 10 - 220 - 30 * scale) < 3 and abs(float(up) * 10 - 250 + 10 * scale) < 3


def test_an_edge_says_what_it_is_and_leads_to_its_line(leaf: Leaf) -> None:
    line = leaf.page.locator('.hit[data-edge="front.top"]')
    at = line.evaluate(
        "path => { const p = path.getPointAtLength(path.getTotalLength() * 0.4).matrixTransform(path.getScreenCTM());"
        " return [p.x, p.y]; }"
    )
    leaf.page.mouse.move(*at)
    leaf.page.wait_for_selector(".tag", state="visible")
    said = leaf.page.inner_text(".tag")
    assert "front: top" in said and "cm" in said and "line 18" in said
    leaf.page.mouse.click(*at)
    leaf.page.keyboard.insert_text("lid")
    leaf.until("document.querySelector('.hit[data-edge=\"front.lid\"]')")
    assert "lid     c to d" in leaf.text()


def test_the_file_is_saved_and_followed(leaf: Leaf, file: Path) -> None:
    leaf.write(BIB.replace("22 cm, 25 cm", "24 cm, 25 cm"))
    leaf.page.click("#save")
    leaf.until("document.querySelector('#save').disabled")
    assert "24 cm, 25 cm" in file.read_text()
    before = leaf.path("front.side")
    file.write_text(BIB.replace("22 cm, 25 cm", "26 cm, 25 cm"))
    assert leaf.redrawn("front.side", before).endswith("L260.0 -250.0")
    assert leaf.page.is_disabled("#save") and "26 cm" in leaf.text()


def test_what_is_saved_elsewhere_does_not_take_away_what_is_typed(leaf: Leaf, file: Path) -> None:
    leaf.write(BIB.replace("22 cm, 25 cm", "24 cm, 25 cm"))
    file.write_text(BIB.replace("22 cm, 25 cm", "26 cm, 25 cm"))
    leaf.page.wait_for_selector("#told button", timeout=30_000)
    assert "24 cm" in leaf.text()
    leaf.page.click("#told button >> nth=0")
    assert "26 cm" in leaf.text() and leaf.page.is_hidden("#told")


def test_seams_are_walked_and_light_up(browser: Any, address: str) -> None:
    leaf = Leaf(browser, address, "#garment=marlpit&size=L&tab=seams")
    leaf.page.click("text=front.overarm – back.overarm")
    leaf.page.wait_for_selector(".walked .strip")
    assert "It fits." in leaf.page.inner_text(".walked figcaption")
    lit = leaf.page.eval_on_selector_all(".hit.lit", "all => all.map(one => one.dataset.edge)")
    assert sorted(lit) == ["back.overarm", "front.overarm"]
    leaf.done()


def test_overlays_sizes_and_people_are_kept_in_the_address(browser: Any, address: str) -> None:
    leaf = Leaf(browser, address, "#garment=netloft&over=combs+construction+dimensions&size=S&all=0&whom=chart+women")
    for part in (".teeth", ".block", ".before", ".long", ".cut.in-hand", ".notch.in-hand"):
        leaf.page.wait_for_selector(f".sheet {part}", state="attached", timeout=30_000)
    assert leaf.page.input_value("#size") == "S"
    assert leaf.page.locator(".sew.off").count() and not leaf.page.is_checked("#all")
    before = leaf.path("front.side")
    leaf.page.select_option("#whom", "end tall")
    leaf.redrawn("front.side", before)
    assert "whom=end+tall" in leaf.page.url and leaf.page.is_disabled("#size")
    tall = leaf.path("front.side")
    leaf.done()
    again = Leaf(browser, address, "#garment=netloft&whom=end+tall")
    again.until(f"document.querySelector('.hit[data-edge=\"front.side\"]').getAttribute('d') === '{tall}'")
    again.done()


def test_examples_of_the_tutorial_are_opened_by_a_click(browser: Any, address: str) -> None:
    leaf = Leaf(browser, address, "#tab=tutorial")
    leaf.page.wait_for_selector(".book .example button")
    leaf.page.locator(".book .example button").nth(2).click()
    leaf.until("document.title.startsWith('Saltpan')")
    assert leaf.text().startswith("pattern saltpan")
    leaf.done()


@pytest.mark.skipif(editor_files() is None, reason="npm has not put the editor here")
def test_the_editor_goes_on_with_a_word_and_says_what_one_is(browser: Any, address: str) -> None:
    leaf = Leaf(browser, address, "#garment=marlpit")
    leaf.stand("neck_turn, curve evenly arriving square to overarm", 9)
    leaf.page.keyboard.press("Backspace")
    leaf.page.keyboard.press("Control+Space")
    leaf.page.wait_for_selector(".cm-tooltip-autocomplete >> text=neck_turn", timeout=30_000)
    leaf.page.keyboard.press("Escape")
    leaf.stand("bust_quarter     =", 3)
    at = leaf.page.evaluate(
        "(() => { const { view } = document.querySelector('.cm-content').cmTile;"
        " const box = view.coordsAtPos(view.state.selection.main.head); return [box.left + 2, box.top + 6]; })()"
    )
    for _ in range(20):  # before a worker has drafted the garment a word has no value
        leaf.page.mouse.move(*at)
        leaf.page.wait_for_selector(".pl-told >> text=bust_quarter", timeout=30_000)
        if "in size L" in (told := leaf.page.inner_text(".pl-told")):
            break
        leaf.page.mouse.move(0, 0)
        leaf.page.wait_for_timeout(500)
    assert "in size L" in told
    leaf.done()


SEEN = ({}, {"color_scheme": "dark", "locale": "de"}, {"viewport": {"width": 390, "height": 800}, "locale": "de"})


@pytest.mark.parametrize("context", SEEN)
@pytest.mark.parametrize("tab", ["notes", "seams&join=neck", "words", "lengths&over=dimensions", "styles"])
def test_nothing_stands_in_anybodys_way(browser: Any, address: str, tab: str, context: dict) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright")
    leaf = Leaf(browser, address, f"#garment=marlpit&tab={tab}", **context)
    leaf.until("document.querySelector('#panel').childElementCount > 0")
    leaf.stand("sleeve_pitch   22 deg", 16)
    leaf.page.wait_for_timeout(500)
    found = axe.Axe().run(leaf.page).response["violations"]
    assert [(one["id"], [node["html"][:100] for node in one["nodes"]]) for one in found] == []
    leaf.done()


def test_all_is_reached_by_keys_alone(browser: Any, address: str, file: Path) -> None:
    file.write_text(BIB)
    leaf = Leaf(browser, address, "#garment=file")
    reached = set()
    leaf.page.evaluate("document.activeElement.blur()")
    for _ in range(30):
        leaf.page.keyboard.press("Tab")
        name = "(one => one.id || one.getAttribute('class')?.split(' ')[0])(document.activeElement)"
        reached.add(leaf.page.evaluate(name))
    assert {"garment", "whom", "size", "all", "closer", "fit", "sheet", "tab-notes", "panel"} <= reached
    leaf.page.focus(".sheet")
    before = leaf.page.get_attribute(".sheet", "viewBox")
    leaf.page.keyboard.press("+")
    leaf.page.keyboard.press("ArrowRight")
    assert leaf.page.get_attribute(".sheet", "viewBox") != before
    leaf.page.keyboard.press("0")
    assert leaf.page.get_attribute(".sheet", "viewBox") == before
    leaf.page.focus("#tab-notes")
    leaf.page.keyboard.press("ArrowRight")
    assert leaf.page.get_attribute("#tab-seams", "aria-selected") == "true"
    leaf.done()


def test_the_sheet_is_moved_and_enlarged_by_mouse_and_touch(browser: Any, address: str) -> None:
    leaf = Leaf(browser, address, "#garment=marlpit", has_touch=True)
    box = leaf.page.locator(".sheet").bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2

    def view() -> list[float]:
        return [float(value) for value in str(leaf.page.get_attribute(".sheet", "viewBox")).split()]

    whole = view()
    leaf.page.mouse.move(x, y)
    leaf.page.mouse.wheel(0, -100)
    leaf.page.wait_for_timeout(200)
    near = view()
    assert near[2] < whole[2] * 0.95 and near[0] > whole[0]
    leaf.page.mouse.down()
    leaf.page.mouse.move(x + 60, y + 30, steps=5)
    leaf.page.mouse.up()
    moved = view()
    assert moved[2] == near[2] and moved[0] < near[0] and moved[1] < near[1]
    fingers = leaf.context.new_cdp_session(leaf.page)

    def touch(kind: str, *apart: float) -> None:
        points = [{"x": x + way * far, "y": y, "id": k} for far in apart for k, way in enumerate((-1, 1))]
        fingers.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    touch("touchStart", 40)
    for far in (50, 60, 70, 80):
        touch("touchMove", far)
    touch("touchEnd")
    leaf.page.wait_for_timeout(200)
    assert view()[2] < moved[2] * 0.7
    leaf.page.click("#fit")
    assert view() == whole
    leaf.done()


def test_another_version_is_laid_under_the_drawing(leaf: Leaf, tmp_path: Path) -> None:
    """Any file of hers: its lines lie under hers, and what has moved is listed; what cannot be laid there says why."""
    other = tmp_path / "older.piece"
    other.write_text(BIB.replace("22 cm, 25 cm", "24 cm, 25 cm"))
    leaf.page.click(".layers summary")
    leaf.page.set_input_files(".layers input[type=file]", str(other))
    leaf.until("document.querySelectorAll('.sheet .old').length === 4")
    assert leaf.page.inner_text("#beneath") == "Under the drawing: older.piece"
    leaf.until("document.querySelector('#panel .changes')?.textContent.includes('20')")
    other.write_text("pattern x\n")
    leaf.page.set_input_files(".layers input[type=file]", str(other))
    leaf.until("document.querySelector('#beneath').textContent.includes('cannot be laid')")
    assert leaf.page.query_selector(".sheet .old") is None
    leaf.page.click("text=The saved text again")
    leaf.until("document.querySelector('#panel .quiet') !== null && document.querySelector('#beneath').hidden")


def test_what_is_told_under_the_pointer_follows_the_text(leaf: Leaf) -> None:
    if leaf.page.query_selector(".plain-area") is None:
        pytest.skip("once is enough: the drawing does not know the editor")
    box = leaf.page.eval_on_selector('.hit[data-edge="front.low"]', "e => e.getBoundingClientRect().toJSON()")
    leaf.page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    leaf.until("document.querySelector('.tag')?.textContent.includes('20.0 cm')")
    area = leaf.page.query_selector(".plain-area")
    area.evaluate(
        "(a, text) => { a.value = text; a.dispatchEvent(new Event('input')); }", BIB.replace("20 cm", "21 cm")
    )
    leaf.until("document.querySelector('.tag')?.textContent.includes('21.0 cm')")
