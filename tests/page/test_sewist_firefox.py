"""The sewist's whole way in Firefox, where it is installed: the page asks for nothing that one browser alone has."""

from __future__ import annotations

import base64
import json
from collections.abc import Iterator

import pytest

from tests.page.firefox import FIREFOX, Firefox, firefox_started

INES = {"bust_girth": "98", "waist_girth": "83", "hip_girth": "112", "stature": "168"}
TAB = "\ue004"


@pytest.fixture(scope="module")
def firefox(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Firefox]:
    """A Firefox without a window."""
    if FIREFOX is None:
        pytest.skip("Firefox is not installed")
    with firefox_started(tmp_path_factory.mktemp("firefox")) as opened:
        yield opened


def test_from_the_shelf_to_the_printed_pattern(firefox: Firefox, served: str) -> None:
    firefox.sized(1280, 900)
    firefox.goto(f"{served}#units=cm&language=en&page=a4")
    firefox.until("document.querySelectorAll('.card .flat').length === 10")
    assert firefox.run("document.querySelector('#units').value") == "cm"
    firefox.click("[data-garment=marlpit] button")
    firefox.until("document.querySelector('#flat').src")
    firefox.until("document.querySelector('#m-bust_girth')")
    for name, text in INES.items():
        firefox.click(f"#m-{name}")
        firefox.type(text)
    firefox.type(TAB)
    firefox.until("document.querySelector('#flat-caption').textContent.includes('your measures')")
    firefox.click("input[name=style-neckline][value=vee]")
    firefox.until("location.hash.includes('neckline=vee')")
    firefox.until("document.querySelector('#needs li')")
    firefox.run("document.querySelector('#make').click()")
    firefox.until("document.querySelectorAll('#files a').length === 4")
    read = "(await (await fetch(document.querySelector('#files a[download$=pdf]').href)).text()).slice(0, 5)"
    assert firefox.run(f"(async () => {read})()") == "%PDF-"
    assert base64.b64decode(firefox.picture()).startswith(b"\x89PNG")
    assert not firefox.faults
    elsewhere = [one for one in firefox.requests if not one.startswith(("http://127.0.0.1", "data:", "blob:"))]
    assert not elsewhere


def test_the_designer_s_drawing_follows_her_text(firefox: Firefox, served: str) -> None:
    firefox.goto(served.rpartition("/enter")[0] + "/design")
    firefox.until("document.querySelectorAll('#sheet path, svg path').length > 10")
    assert not firefox.faults
    size = json.loads(str(firefox.run("JSON.stringify([document.documentElement.scrollWidth, innerWidth])")))
    assert size[0] <= size[1]
