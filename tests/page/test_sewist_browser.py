"""The sewist's whole way in a real browser: from the shelf to the files, by mouse, by keyboard, on a phone."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

INES = {"bust_girth": "98", "waist_girth": "83", "hip_girth": "112", "stature": "168"}
DESK, PHONE = {"width": 1440, "height": 1000}, {"width": 390, "height": 844}
WAIT = 90_000


@pytest.fixture
def leaf(browser: Any, served: str) -> Iterator[Any]:
    """The page as a browser first shows it; no fault may reach its console."""
    context = browser.new_context(viewport=DESK, locale="en-GB", accept_downloads=True)
    context.set_default_timeout(WAIT)
    opened, faults = context.new_page(), list[str]()
    opened.on("pageerror", lambda fault: faults.append(str(fault)))
    opened.on("console", lambda said: faults.append(said.text) if said.type == "error" else None)
    opened.goto(served)
    yield opened
    context.close()
    assert not faults


def choose(leaf: Any, garment: str) -> None:
    """Take a garment from the shelf, and wait until it is drawn."""
    leaf.locator(f"[data-garment={garment}] button").click()
    leaf.locator("#flat[src]").wait_for()


def typed(leaf: Any, measures: dict[str, str]) -> None:
    """Type measures, and wait until the garment is drafted for them."""
    for name, text in measures.items():
        leaf.fill(f"#m-{name}", text)
    leaf.keyboard.press("Tab")
    leaf.get_by_text("Drafted for").wait_for()
    leaf.locator("#sits td", has_text=f"{measures['bust_girth']} cm").first.wait_for()


def test_from_the_shelf_to_the_printed_pattern(leaf: Any, tmp_path: Path) -> None:
    leaf.locator(".card .flat").nth(9).wait_for()
    choose(leaf, "marlpit")
    typed(leaf, INES)
    leaf.get_by_text("Of the chart, you would cut M by the bust and go over to XL at the hip").wait_for()
    leaf.get_by_label("Vee").check()
    leaf.locator("#needs li").first.wait_for()
    leaf.get_by_text(re.compile(r"1\d pages and a guide")).wait_for()
    leaf.get_by_role("button", name="Make my pattern").click()
    leaf.locator("#files a").first.wait_for()
    names = leaf.locator("#files a").evaluate_all("links => links.map((link) => link.download)")
    assert [name.rpartition(".")[2] for name in names] == ["zip", "pdf", "pdf", "html"]
    with leaf.expect_download() as coming:
        leaf.get_by_role("link", name="The pattern, to print on A4").click()
    coming.value.save_as(tmp_path / "pattern.pdf")
    assert (tmp_path / "pattern.pdf").read_bytes().startswith(b"%PDF")
    assert "neckline=vee" in leaf.url and "98" in leaf.url


def test_the_shelf_is_narrowed_to_what_is_looked_for(leaf: Any) -> None:
    leaf.get_by_text("10 garments").wait_for()
    names = [leaf.locator(".kind h2").nth(k).inner_text() for k in range(4)]
    assert names == ["Knit tops", "Blouses and jackets of woven cloth", "Skirts", "Trousers and leggings"]
    leaf.get_by_role("radio", name="trousers").check()
    leaf.get_by_text("2 garments").wait_for()
    leaf.get_by_role("radio", name="knit").check()
    leaf.get_by_text("one garment").wait_for()
    assert leaf.locator(".card:visible").get_attribute("data-garment") == "slipway"
    again = leaf.context.new_page()
    again.goto(leaf.url)
    again.get_by_text("one garment").wait_for()
    leaf.get_by_role("button", name="Undo").click()
    leaf.get_by_text("2 garments").wait_for()


def test_what_does_not_come_out_is_said_in_german(leaf: Any) -> None:
    """A garment that cannot be drafted for such measures: no word of the note is English."""
    leaf.select_option("#language", "de")
    choose(leaf, "boatyard")
    for name, text in {"waist_girth": "60", "hip_girth": "150", "stature": "215"}.items():
        leaf.fill(f"#m-{name}", text)
    leaf.keyboard.press("Tab")
    leaf.locator("#told .note").first.wait_for()
    told = leaf.locator("#told").inner_text()
    assert not re.search(r"\b(?:the|of|is|for|and)\b", told), told
    assert leaf.locator("#told .note[lang=en]").count() == 0


def test_the_address_holds_everything_and_each_step_can_be_undone(leaf: Any) -> None:
    choose(leaf, "marlpit")
    typed(leaf, INES)
    leaf.get_by_label("Long", exact=True).check()
    address = leaf.url
    leaf.get_by_role("button", name="Undo").click()
    leaf.get_by_label("Short", exact=True).wait_for()
    assert leaf.get_by_label("Short", exact=True).is_checked()
    leaf.get_by_role("button", name="Redo").click()
    leaf.wait_for_timeout(300)
    assert leaf.get_by_label("Long", exact=True).is_checked()
    again = leaf.context.new_page()
    again.goto(address)
    again.get_by_text("Drafted for").wait_for()
    assert again.locator("#m-hip_girth").input_value() == "112"
    assert again.get_by_label("Long", exact=True).is_checked()


def test_by_the_keyboard_alone(leaf: Any) -> None:
    leaf.locator("[data-garment=ropewalk] .flat").wait_for()
    for _ in range(60):
        leaf.keyboard.press("Tab")
        if leaf.evaluate("document.activeElement.closest('[data-garment=ropewalk]') !== null"):
            break
    leaf.keyboard.press("Enter")
    leaf.locator("#flat[src]").wait_for()
    assert leaf.evaluate("document.activeElement.id") == "garment-title"
    for _ in range(20):
        leaf.keyboard.press("Tab")
        if leaf.evaluate("document.activeElement.id") == "m-waist_girth":
            break
    leaf.keyboard.type("76")
    leaf.keyboard.press("Tab")
    leaf.keyboard.press("Enter")
    leaf.locator("#how-waist_girth img").wait_for()
    leaf.keyboard.press("Tab")
    leaf.keyboard.type("100")
    leaf.keyboard.press("Tab")
    leaf.keyboard.press("Tab")
    leaf.keyboard.type("165")
    leaf.keyboard.press("Tab")
    leaf.get_by_text("Drafted for").wait_for()
    for _ in range(80):
        if leaf.evaluate("document.activeElement.id") == "make":
            break
        leaf.keyboard.press("Tab")
    leaf.keyboard.press("Enter")
    leaf.locator("#files a").first.wait_for()
    assert leaf.evaluate("document.activeElement.closest('#files') !== null")


def test_what_cannot_be_is_said_where_it_was_typed(leaf: Any) -> None:
    choose(leaf, "marlpit")
    leaf.fill("#m-bust_girth", "38")
    leaf.get_by_text("did you mean the other unit?").wait_for()
    assert leaf.locator("#m-bust_girth").get_attribute("aria-invalid") == "true"
    leaf.locator("#told .note.bad").first.wait_for()
    assert ".piece" not in leaf.locator("#told").inner_text()
    leaf.fill("#m-stature", "1.68")
    leaf.get_by_text("did you mean 168?").wait_for()
    leaf.fill("#m-stature", "1.68 m")
    leaf.locator("#m-stature[aria-invalid=false]").wait_for()
    leaf.fill("#m-waist_girth", "83")
    leaf.fill("#m-hip_girth", "80")
    leaf.get_by_text("Smaller than the waist").wait_for()
    leaf.select_option("#units", "in")
    leaf.fill("#m-bust_girth", "38 1/2")
    leaf.keyboard.press("Tab")
    leaf.locator("#m-bust_girth[aria-invalid=false]").wait_for()


def test_her_friends_measures_are_kept_beside_hers(leaf: Any) -> None:
    choose(leaf, "marlpit")
    typed(leaf, INES)
    leaf.get_by_text("Keep these measures").click()
    leaf.fill("#who-name", "Ines")
    leaf.get_by_role("button", name="Keep", exact=True).click()
    leaf.get_by_text("The measures of Ines are kept.").wait_for()
    leaf.fill("#m-bust_girth", "120")
    leaf.get_by_role("button", name="Ines", exact=True).click()
    leaf.wait_for_timeout(400)
    assert leaf.locator("#m-bust_girth").input_value() == "98"
    leaf.on("dialog", lambda dialog: dialog.accept())
    leaf.get_by_role("button", name="Forget the measures of Ines").click()
    leaf.get_by_role("button", name="Ines", exact=True).wait_for(state="detached")


def test_in_german_and_by_the_other_unit(leaf: Any) -> None:
    leaf.select_option("#language", "de")
    leaf.get_by_role("heading", name="Was möchten Sie nähen?").wait_for()
    leaf.locator("[data-garment=marlpit] button").click()
    leaf.get_by_text("Brustumfang").first.wait_for()
    typed_german = {"bust_girth": "98", "waist_girth": "83", "hip_girth": "104", "stature": "168"}
    for name, text in typed_german.items():
        leaf.fill(f"#m-{name}", text)
    leaf.keyboard.press("Tab")
    leaf.get_by_text("Gezeichnet für").wait_for()
    leaf.get_by_role("heading", name="So sitzt es").wait_for()
    assert not re.search(r"screen\.\w+", leaf.locator("body").inner_text())
    leaf.select_option("#units", "in")
    leaf.wait_for_timeout(400)
    assert leaf.locator("#m-bust_girth").input_value() == "38.58"


def test_stretch_is_measured_on_the_screen(leaf: Any) -> None:
    choose(leaf, "marlpit")
    leaf.select_option("#cloth-kind", "own")
    leaf.get_by_role("button", name="Measure it on the screen").click()
    leaf.get_by_label("How large it is on the screen").fill("4")
    assert leaf.locator(".held").evaluate("one => one.getBoundingClientRect().width") == pytest.approx(4 * 85.6, abs=1)
    leaf.get_by_label("How far the second mark reaches").fill("0.55")
    leaf.get_by_role("button", name="Take this stretch").click()
    assert leaf.locator("#c-stretch_across").input_value() == "55"
    leaf.get_by_text("yours gives 55 %").wait_for()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_everybody_can_use_it(browser: Any, served: str, scheme: str, size: dict[str, int]) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright").Axe()
    context = browser.new_context(viewport=size, locale="en-GB", color_scheme=scheme, reduced_motion="reduce")
    context.set_default_timeout(WAIT)
    leaf = context.new_page()
    leaf.goto(served)
    leaf.locator(".card .flat").nth(9).wait_for()
    found = axe.run(leaf)
    assert found.violations_count == 0, found.generate_report()
    choose(leaf, "marlpit")
    typed(leaf, INES)
    leaf.get_by_text("What you see in the mirror").click()
    leaf.locator(".saying img").first.wait_for()
    leaf.locator("#pieces img").wait_for()
    found = axe.run(leaf)
    assert found.violations_count == 0, found.generate_report()
    wide = leaf.evaluate("[document.documentElement.scrollWidth, innerWidth]")
    assert wide[0] <= wide[1]
    context.close()


def test_what_is_typed_while_the_units_change_is_kept(leaf: Any) -> None:
    """The new limits come a moment later than the new units: what is typed in between stands, and is judged by them."""
    choose(leaf, "marlpit")
    leaf.fill("#m-bust_girth", "98")
    leaf.keyboard.press("Tab")
    leaf.get_by_text("Upper arm").first.wait_for()
    leaf.evaluate(
        """() => {
          const units = document.querySelector('#units');
          units.value = 'in';
          units.dispatchEvent(new Event('change'));
          const bust = document.querySelector('#m-bust_girth');
          bust.value = '38 1/2';
          bust.dispatchEvent(new Event('change'));
        }"""
    )
    leaf.wait_for_timeout(1500)
    assert leaf.locator("#m-bust_girth").input_value() == "38 1/2"
    assert leaf.locator("#m-bust_girth").get_attribute("aria-invalid") == "false"


@pytest.mark.slow
def test_it_settles_on_a_form_while_she_watches_and_is_stopped(leaf: Any) -> None:
    """By the keyboard: it begins, may be stopped, and what was changed meanwhile is told once it is there."""
    leaf.context.set_default_timeout(240_000)
    choose(leaf, "marlpit")
    typed(leaf, INES)
    leaf.focus("#on-form-begin")
    leaf.keyboard.press("Enter")
    leaf.locator("#on-form-shown img.settling[src]").wait_for()
    assert leaf.evaluate("document.activeElement.id") == "on-form-stop"
    leaf.keyboard.press("Enter")
    leaf.get_by_text("Stopped.").wait_for()
    assert leaf.evaluate("document.activeElement.id") == "on-form-begin"
    leaf.keyboard.press("Enter")
    leaf.locator("#on-form-shown img.settling[src]").wait_for()
    leaf.fill("#m-hip_girth", "116")
    leaf.keyboard.press("Tab")
    leaf.locator("#on-form-shown .key").wait_for()
    assert "stale" in (leaf.locator("#on-form-shown").get_attribute("class") or "")
    assert "what you asked before" in leaf.locator("#on-form-status").inner_text()
    assert "A form of your measures, not you." in leaf.locator("#on-form-shown").inner_text()
    leaf.fill("#m-hip_girth", INES["hip_girth"])
    leaf.keyboard.press("Tab")
    leaf.locator("#on-form-shown:not(.stale)").wait_for()
