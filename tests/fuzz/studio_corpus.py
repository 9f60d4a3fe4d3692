"""The sound inputs of a studio: its folder, tables of orders, replies and sheets of testers, drawings to begin from."""

from __future__ import annotations

import random
import tempfile
from functools import cache
from pathlib import Path

from draft.drafting.checked import draft_and_check
from draft.drafting.request import Request
from draft.pack.pack import printing_for
from draft.pack.studio_paper import studio_paper
from draft.paper.booklet import BookletFacts
from draft.release.feedback_questions import questions
from draft.release.feedback_sheet import feedback_files
from draft.sharing.enclosed import enclosed, sealed
from tests.fuzz import corpus
from tests.fuzz.corpus import Files
from tests.release.publishing_studio import publishing_studio
from tests.studio.withy_bank import STUDIO

SMALL = """pattern {name}
    title    "Withy panel"
    chart    "two.csv"
    version  "1.0"
    changed  "1.0" on "2026-03-01" "First published."

body
    hip_girth, waist_girth

style
    room  2 cm  from 0 cm to 4 cm  "more than the hip"

piece panel
    points
        a at 0, 0
        b from a: hip_girth / 2 + room across
        c from b: 30 cm up
        d from a: 30 cm up

    outline
        low    a to b   straight, allowance 2 cm, turned up
        right  b to c   straight
        top    c to d   straight, unjoined
        left   d to a   straight

    cut 2

join
    side  panel.right to panel.left reversed

finished
    hip around = 2 * length of panel.low over hip_girth   "at the hip"
    length     = length of panel.left
"""
"""A pattern of one piece, which a studio publishes in no time."""
QUICK = STUDIO.replace('["en", "de"]', '["en"]').replace('["pages", "booklet", "html"]', '["tables"]')
ORDERS = (
    "order,size,style room,language,units\nA-1,M,,,\nA-2,L,3 cm,de,cm\n",
    "order;hip cm;waist cm;height cm;style;page;allowance\r\nB-1;104,5;83;168;room=1cm;none;1cm\r\nB-2;98;;;;a4;\r\n",
    "order\tlike\tcloth\twidth\tone way\nC-1\thip M, waist L\tstable\t150cm\tyes\n",
)
"""Tables as three spreadsheets write them."""
PRICES = QUICK + corpus.PRICES.partition("\n")[2]
DRAWINGS = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="400mm" viewBox="0 0 300 400"><path id="front" '
    'd="M10 10 C60 0 120 20 200 30 L210 250 Q100 270 10 250 Z"/><g transform="rotate(5 150 350)"><rect id="band" '
    'x="20" y="300" width="220" height="60"/></g></svg>',
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 600 800"><line x1="0" y1="0" x2="200" y2="0"/><path d="M200 '
    '0 V300 A40 40 0 0 1 160 340 H0 Z m20 40 l10 10"/><polyline points="0,340 0,170 0,0"/>'
    '<circle cx="400" cy="300" r="90"/></svg>',
)
"""Outlines as a drawing program saves them."""


@cache
def studio() -> Files:
    """The folder of a studio with one pattern in two sizes."""
    with tempfile.TemporaryDirectory() as place:
        publishing_studio(Path(place))
        found = {file.name: file.read_bytes() for file in sorted(Path(place).iterdir())}
    return {**found, "gorse.piece": SMALL.format(name="gorse").encode(), "studio.toml": QUICK.encode()}


@cache
def replies() -> str:
    """A table as testers fill it in."""
    with tempfile.TemporaryDirectory() as place:
        for name, data in studio().items():
            (Path(place) / name).write_bytes(data)
        asked = questions(draft_and_check(Request(str(Path(place) / "gorse.piece"))))
    chance = random.Random(1)
    said = {"size": ("M", "L"), "version": ("1.0", "0.9", ""), "again": ("yes", "no", ""), "words": ("Lovely.", "")}
    said |= {"tester": ("Ann", "Bea", ""), "cloth": ("jersey", ""), "pulls": ("yes", "")}
    rows = [",".join(asked.columns)]
    for _ in range(6):
        cells = [
            chance.choice(said.get(name.split()[0], ("98.5", "40 1/2 in") if name.endswith(" cm") else ("1", "3", "5")))
            for name in asked.columns
        ]
        rows.append(",".join(cells))
    return "\n".join([*rows, ""])


@cache
def sheet() -> bytes:
    """A sheet to fill in (PDF)."""
    with tempfile.TemporaryDirectory() as place:
        for name, data in studio().items():
            (Path(place) / name).write_bytes(data)
        drafted = draft_and_check(Request(str(Path(place) / "gorse.piece")))
        assert drafted.planned
        printing, _ = printing_for(drafted, studio_paper(drafted.planned.studio, "en"))
        files = feedback_files(BookletFacts(drafted, (0, 1), printing.wording, (), None, printing.imprint.face))
    return next(data for name, data in files.items() if name.endswith(".pdf"))


@cache
def envelope() -> bytes:
    """The studio's pattern in one file."""
    with tempfile.TemporaryDirectory() as place:
        for name, data in studio().items():
            (Path(place) / name).write_bytes(data)
        return sealed(enclosed(str(Path(place) / "gorse.piece")))


@cache
def dxf() -> str:
    """Outlines in DXF, as a general library writes them."""
    import io

    import ezdxf

    drawing = ezdxf.new("R12")  # type: ignore[attr-defined]
    space = drawing.modelspace()
    space.add_polyline2d([(0, 0, 0.2), (200, 0, 0), (210, 300, 0), (0, 300, 0)], format="xyb", close=True)
    space.add_polyline2d([(300, 0), (400, 20), (420, 150), (330, 220)], dxfattribs={"layer": "BACK"})
    space.add_line((330, 220), (300, 0), dxfattribs={"layer": "BACK"})
    space.add_arc((600, 100), 80, 0, 180)
    space.add_line((520, 100), (680, 100))
    written = io.StringIO()
    drawing.write(written)
    return written.getvalue()
