"""One order by the function that a shop's own program calls: what it gives, and what it never tells."""

from __future__ import annotations

import hashlib
import json
import shutil
from pathlib import Path

import pytest

from draft.base.notes import Problems
from draft.base.resources import folder
from draft.drafting.checked import draft_and_check
from draft.drafting.request import Request, Whom
from draft.orders import Made, Order, Refused, became_data, make_order, order_from
from draft.orders.became import became_from
from draft.orders.kept_inputs import keep_inputs
from draft.orders.one_order import paper_of_order
from draft.orders.order_data import order_data
from draft.orders.order_made import Packed, Plans, pack_order
from draft.orders.unnamed import figures_of, without_figures
from draft.pack.pack import pack_files
from draft.pack.paper_request import PaperRequest
from draft.studio.studio_file import studio_beside
from tests.orders.worked import contents
from tests.project.checkout import ROOT

INES = {"bust_girth": "98.3 cm", "waist_girth": "83 cm", "hip_girth": "104 cm", "stature": "168 cm"}


def test_an_order_is_what_the_command_packs(tmp_path: Path) -> None:
    order = Order("A-1017", "marlpit", INES, styles={"neckline": "vee"}, pages=("a4",), language="de")
    became = make_order(order, tmp_path)
    assert isinstance(became, Made) and became.folder == "A-1017" and became.pages == {"a4": 12}
    whom = Whom(answers=tuple(f"{name}={value}" for name, value in INES.items()), name="A-1017")
    drafted = draft_and_check(Request("marlpit", whom, {"neckline": "vee"}), whole=True)
    files = pack_files(drafted, PaperRequest(("a4",), units="cm", language="de"))
    there = {name: data for name, data in contents(tmp_path / "A-1017").items() if data}
    assert there == files
    assert {one.name: one.sha256 for one in became.files} == {
        name: hashlib.sha256(data).hexdigest() for name, data in files.items()
    }
    assert "upper_arm_girth" in became.estimates and became.cloth[0].length > 500
    assert became_from(json.loads(json.dumps(became_data(became)))) == became


def test_the_readmes_example_runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8").partition("## For a shop")[2]
    example = text.partition("```python\n")[2].partition("```")[0]
    monkeypatch.chdir(tmp_path)
    said: dict = {}
    exec(example, said)
    assert said["became"].is_made and (tmp_path / "packs" / "A-1017" / "booklet.pdf").is_file()


def test_a_size_and_one_between_sizes_are_made_too() -> None:
    no_paper = {"pages": (), "widths": (), "holds": ("svg",)}
    size = pack_order(Order("1", "marlpit", sizes=("M",), **no_paper))
    like = pack_order(Order("2", "marlpit", like="bust M, hip L", **no_paper))
    assert isinstance(size, Packed) and "svg/M.svg" in size.files
    assert isinstance(like, Packed) and "svg/2.svg" in like.files


@pytest.mark.parametrize(
    ("said", "reason", "fix"),
    [
        ({}, "does not say for whom", "give measures"),
        ({"measures": INES, "sizes": ("M",)}, "a size and a person's", "take the size out"),
        ({"sizes": ("M",), "figure": "bust D"}, "a figure is said of a person", "take it out"),
        ({"measures": INES, "styles": {"neckline": "heart"}}, "no option `heart`", "choose from"),
        ({"measures": INES, "language": "xx"}, "no words in the language `xx`", "choose from"),
        ({"measures": INES, "pages": ("a99",)}, "a99", ""),
        ({"measures": INES, "allowance": "9 cm"}, "wider than a seam", "5 cm at most"),
        ({"measures": INES, "cloth": "felted moss"}, "no fabric", ""),
        ({"measures": {**INES, "bust_girth": "983 cm"}}, "outside 60 cm to 180 cm", "look at this order's measures"),
        ({"measures": {"elbow": "3"}}, "not a body measure", "elbow_girth"),
    ],
)
def test_what_cannot_be_made_is_refused_in_words(said: dict, reason: str, fix: str, tmp_path: Path) -> None:
    refused = make_order(Order("7", "marlpit", **said), tmp_path)
    assert isinstance(refused, Refused) and refused.why == "order"
    assert reason in " ".join(refused.reasons) and fix in " ".join(refused.fixes)
    assert not list(tmp_path.iterdir())
    assert became_from(became_data(refused)) == refused


def test_no_figure_of_a_body_is_in_the_words() -> None:
    refused = pack_order(Order("7", "marlpit", {**INES, "bust_girth": "98.3 in", "waist_girth": "999 mm"}))
    assert isinstance(refused, Refused)
    said = " ".join((*refused.reasons, *refused.fixes))
    for figure in ("98.3", "249.7", "2497", "999", "99.9", "made to measure"):
        assert figure not in said
    figures = figures_of({"bust_girth": "38 1/2 in", "waist_girth": "83,5 cm"}, [1040.0, 0.3665])
    told = without_figures(
        "97.8 cm (38.5), 38 1/2 in, 83.5, 104 cm, 40.9 in, 21 deg; 5 cm, M-12 and 60 cm stay", figures
    )
    assert told == "… cm (…), … in, …, … cm, … in, … deg; 5 cm, M-12 and 60 cm stay"


def test_what_nobody_says_is_as_the_studio_says(tmp_path: Path) -> None:
    for name in ("marlpit.piece", "bands.piece", "women.csv", "marlpit.de.toml"):
        shutil.copy(folder("pieces") / name, tmp_path / name)
    (tmp_path / "studio.toml").write_text(
        'name = "Withy Bank"\nlanguages = ["de"]\npages = ["a3"]\npack = ["pages", "tables"]\n'
    )
    kept = keep_inputs([str(tmp_path / "marlpit.piece")], [])
    places = kept.put_into(tmp_path / "there")
    pattern = places["patterns"][str(tmp_path / "marlpit.piece")]
    found = pack_order(Order("1", pattern, sizes=("M",)))
    assert isinstance(found, Packed) and found.made.pages.keys() == {"a3"} and "booklet.pdf" not in found.files
    said = paper_of_order(Order("1", pattern, pages=("a4",), language="en"), studio_beside(tmp_path))
    assert (said.pages, said.language, said.units, said.holds) == (("a4",), "en", "both", ("pages", "tables"))


def test_plans_kept_for_others_who_choose_alike_change_nothing() -> None:
    plans = Plans()
    orders = [
        Order(str(k), "marlpit", {**INES, "bust_girth": f"{90 + k} cm"}, pages=(), widths=(), holds=("svg",))
        for k in range(2)
    ]
    kept = [pack_order(one, plans) for one in (*orders, orders[0])]
    alone = [pack_order(one) for one in orders]
    assert kept == [*alone, alone[0]]


def test_an_order_is_plain_data_and_back() -> None:
    order = Order("A", "marlpit", INES, styles={"neckline": "vee"}, widths=("140 cm",), one_way=True, repeat="4 cm")
    assert order_from(json.loads(json.dumps(order_data(order)))) == order
    assert set(order_data(Order("A", "marlpit"))) == {"key", "pattern"}


@pytest.mark.parametrize(
    ("data", "told"),
    [
        ({"key": "A"}, "does not say its `pattern`"),
        ({"key": "A", "pattern": "marlpit", "sise": ["M"]}, "has no `sise`"),
        ({"key": "A", "pattern": "marlpit", "sizes": "M"}, "no list of texts"),
        ({"key": "A", "pattern": "marlpit", "measures": {"bust": 98}}, "no table of texts"),
        ({"key": "A", "pattern": "marlpit", "one_way": "yes"}, "neither true nor false"),
        ({"key": "A", "pattern": "marlpit", "units": "ells"}, "one of both, in, cm"),
        ({"key": "A" * 300, "pattern": "marlpit"}, "more than 200 letters"),
    ],
)
def test_data_that_are_no_order_are_told(data: dict, told: str) -> None:
    with pytest.raises(Problems, match=told):
        order_from(data)
