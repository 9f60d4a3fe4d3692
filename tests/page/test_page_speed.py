"""From the command to the first drawing, from a choice to the next: tables, by `pytest tests/page -m slow -s -n 0`."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from tests.page.conftest import page_started

pytestmark = pytest.mark.slow

DRAWN = "[data-garment=marlpit] .flat"


def test_from_the_command_to_the_first_drawing(browser: Any, tmp_path: Path) -> None:
    times = []
    for _ in range(4):  # the first has to read the patterns, which are then kept
        begun = time.perf_counter()
        process, address = page_started(tmp_path)
        leaf = browser.new_page()
        leaf.goto(address)
        leaf.locator(".card .flat").first.wait_for(timeout=60_000)
        times.append(time.perf_counter() - begun)
        leaf.close()
        process.terminate()
        process.wait(20)
    print(f"\nthe command to the first garment drawn: {times[0]:.2f} s at first, then {min(times[1:]):.2f} s")


def test_from_a_measure_to_the_new_drawing(browser: Any, served: str) -> None:
    context = browser.new_context(locale="en-GB")
    leaf = context.new_page()
    leaf.set_default_timeout(60_000)
    leaf.goto(served)
    leaf.locator(DRAWN).wait_for()
    leaf.locator("[data-garment=marlpit] button").click()
    for name, text in (("bust_girth", "98"), ("waist_girth", "83"), ("hip_girth", "104"), ("stature", "168")):
        leaf.fill(f"#m-{name}", text)
    leaf.keyboard.press("Tab")
    leaf.get_by_text("Drafted for").wait_for()
    leaf.wait_for_timeout(3000)
    times = []
    for k in range(20):
        before = leaf.locator("#flat").get_attribute("src")
        begun = time.perf_counter()
        leaf.get_by_label(("Vee", "Crew", "Boat", "Scoop")[k % 4]).check()
        leaf.locator(f'#flat:not([src="{before}"])').wait_for()
        times.append(time.perf_counter() - begun)
        leaf.wait_for_timeout(1500)
    context.close()
    half, most = (float(np.quantile(times, share)) for share in (0.5, 0.95))
    print(f"\na style chosen to the garment drawn anew: half in {half:.2f} s, 95 % in {most:.2f} s")
