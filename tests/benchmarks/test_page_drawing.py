"""How long from a key or a slider to the new drawing of all seven sizes, measured in the browser."""

from __future__ import annotations

import statistics
import time
from pathlib import Path
from typing import Any

import pytest

from draft.base.resources import folder
from draft.page.bench import Bench
from draft.page.designing import VERBS
from tests.page.conftest import browser, page_started

__all__ = ["browser"]
pytestmark = pytest.mark.slow
MARLPIT = folder("pieces") / "marlpit.piece"
ROUNDS = 40
REMARK = "# Widths of half a front or back"
NUMBERS = {
    "room round the bust": ("bust_ease        6 cm", 17),
    "slope of the sleeve": ("sleeve_pitch   22 deg", 16),
    "depth of the neck": ("scoop 5 cm, boat -2", 7),
}


def test_processor_time_of_what_a_worker_does() -> None:
    bench, text = Bench(), MARLPIT.read_text("utf-8")
    cases = {
        "a number that little leans on": ("scoop 5 cm, boat", "scoop {:.2f} cm, boat", 5),
        "a number that most leans on": ("bust_ease        6 cm", "bust_ease        {:.2f} cm", 5),
        "a remark": ("# Widths of half", "# Widths {:.2f} of half", 5),
        "any other text": (REMARK, "mine_{:.0f} = 3 cm\n    " + REMARK, 50),
    }
    print("\nms of the processor, all seven sizes     least  median")
    for name, (words, form, times) in cases.items():
        values = [times + k * times / 50 for k in range(ROUNDS)]
        texts = [text.replace(words, form.format(value)) for value in values]
        found = [_spent("nest", one, bench, {"moving": True}) for one in texts][5:]
        print(f"{name:38} {min(found):6.0f} {statistics.median(found):7.0f}")
    for verb in ("cutting", "checks"):
        texts = [text.replace("bust_ease        6 cm", f"bust_ease        {6 + k / 50:.2f} cm") for k in range(8)]
        found = [_after(verb, one, bench) for one in texts][1:]
        print(f"{verb:38} {min(found):6.0f} {statistics.median(found):7.0f}")


def _after(verb: str, text: str, bench: Bench) -> float:
    _spent("nest", text, bench, {})
    return _spent(verb, text, bench, {})


def _spent(verb: str, text: str, bench: Bench, more: dict[str, Any]) -> float:
    begun = time.process_time()
    VERBS[verb]({"garment": "marlpit", "text": text, **more}, bench)
    return (time.process_time() - begun) * 1000


def test_from_a_key_to_the_drawing(browser: Any, tmp_path: Path) -> None:
    file = tmp_path / "own.piece"
    file.write_text(MARLPIT.read_text("utf-8").replace(REMARK, f"mine = 3 cm\n    {REMARK}"), "utf-8")
    process, address = page_started(tmp_path, str(file))
    try:
        page = browser.new_context(viewport={"width": 1400, "height": 900}).new_page()
        page.goto(address)
        page.wait_for_selector(".sheet .sew", state="attached", timeout=60_000)
        page.wait_for_selector("html[data-ready]", timeout=60_000)
        page.wait_for_timeout(3000)
        rows = {name: _stepped(page, *place) for name, place in NUMBERS.items()}
        rows["a remark typed"] = _typed(page, REMARK, 5)
        rows["a name typed"] = _typed(page, "mine = 3 cm", 4)
    finally:
        process.terminate()
        process.wait(20)
    print("\nms to the drawing     least  median  95 in 100  most")
    for name, found in rows.items():
        found.sort()
        cut = found[int(len(found) * 0.95) - 1]
        print(
            f"{name:20} {found[0]:6.0f} {statistics.median(found):7.0f} {cut:10.0f} {found[-1]:5.0f}   of {len(found)}"
        )


def _stepped(page: Any, words: str, inside: int) -> list[float]:
    """Alt and an arrow on a number, one step after another, each drawn before the next."""
    _stand(page, words, inside)
    for _ in range(5):
        _one(page, "Alt+ArrowUp")
    return [_one(page, "Alt+ArrowUp" if k % 20 < 10 else "Alt+ArrowDown") for k in range(ROUNDS)]


def _typed(page: Any, words: str, inside: int) -> list[float]:
    """Letters in a remark, which changes nothing, or in a name: the text is read, planned and drafted anew."""
    _stand(page, words, inside)
    return [_one(page, "x") for _ in range(ROUNDS)]


def _stand(page: Any, words: str, inside: int) -> None:
    page.evaluate(
        f"(() => {{ const {{ view }} = document.querySelector('.cm-content').cmTile;"
        f" const at = view.state.doc.toString().indexOf({words!r}) + {inside};"
        " view.focus(); view.dispatch({selection: {anchor: at}, scrollIntoView: true}); })()"
    )
    page.wait_for_timeout(300)


def _one(page: Any, key: str) -> float:
    page.evaluate("performance.clearMeasures('drawing')")
    page.keyboard.press(key)
    for _ in range(500):
        found = page.evaluate("performance.getEntriesByName('drawing').map((one) => one.duration)")
        if found:
            page.wait_for_timeout(30)
            return float(found[0])
        page.wait_for_timeout(10)
    raise AssertionError("it was never drawn")
