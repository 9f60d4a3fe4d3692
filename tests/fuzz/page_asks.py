"""What a browser asks of the page's workers, oddly, and the process that answers: no browser, and no server.

The odd file has one ask a line, so that those that do not matter can be left out.
"""

from __future__ import annotations

import json
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

from draft.base.notes import Problems
from draft.bodies.measures import MEASURES
from draft.page.bench import Bench
from draft.page.designing import VERBS as DESIGNED
from draft.page.notes_told import notes_told
from draft.page.page_verbs import VERBS
from draft.paper.drawing.spoken_languages import languages
from tests.fuzz import corpus
from tests.fuzz.mangling import mangled
from tests.fuzz.wearers import odd_person, odd_styles

ASKS = "asks"
"""Instead of serving a page, asks of it are answered."""
Asked = dict[str, Any]
LONG = ("on_form",)
"""Half a minute: left to the cases that dress."""
SEWING = (
    "garment", "measures", "sizes", "styles", "cloth", "unwashed", "name", "figure", "allowance", "chart", "units",
    "language", "pages", "large", "butt", "widths", "one_way", "large_print", "have", "pieces", "measure",
)  # fmt: skip
DESIGNING = (
    "text", "sizes", "measures", "figure", "chart", "at", "start", "end", "size", "join", "moving", "other",
    "garment", "book", "was", "over", "of", "language", "units",
)  # fmt: skip
ABOUT_TEXT = tuple(DESIGNED)
WRONG: tuple[Any, ...] = (None, True, 7, -1, 1e308, 0.5, "", " ", [], {}, ["M", 5], {"a": None}, {"": "x"}, [[]],
                          "../../etc/passwd", "\u202e", "\ud800", "x" * 5000)  # fmt: skip


def page_asks(chance: random.Random) -> tuple[corpus.Files, list[tuple[str, ...]], str]:
    """A few asks in turn: about a garment of the shelf, or about a text that is written."""
    chosen = corpus.small(chance)
    files = {**dict(chosen.beside), chosen.name: chosen.text.encode()}
    about = _of_text if chance.random() < 0.6 else _of_garment
    asks = [about(chosen, chance) for _ in range(chance.choice((1, 2, 3)))]
    files["asks.jsonl"] = "\n".join(json.dumps(one) for one in asks).encode()
    return files, [(ASKS, "asks.jsonl", chosen.name)], "asks.jsonl"


def _of_garment(_chosen: corpus.Text, chance: random.Random) -> Asked:
    verb = chance.choice([name for name in VERBS if name not in (*ABOUT_TEXT, *LONG)])
    pattern = chance.choice(("tidemill", "ropewalk", "marlpit", "file"))
    lines = [line.partition(" = ") for line in odd_person(chance).splitlines()]
    styles = odd_styles("tidemill" if pattern == "file" else pattern, chance)[1::2]
    asked: Asked = {
        "garment": pattern,
        "measures": {name: value.strip('"') for name, _, value in lines if name in MEASURES},
        "styles": dict(one.split("=", 1) for one in styles),
        "language": chance.choice((*languages(), "en")),
        "units": chance.choice(("cm", "in", "both")),
        "pages": chance.choice(([], ["a4"], ["letter", "a0"])),
        "large": chance.choice(([], ["projector"], ["roll-36in"])),
        "widths": chance.choice(([], ["150cm"], ["58in", "none"])),
        "have": chance.choice(([], ["2m x 150cm"], ["60cm x 1.5m", "1m x 70cm"])),
        "cloth": chance.choice((None, {"stretch_across": "40 %"}, "rib", {"width": "0 cm"})),
        "measure": chance.choice(tuple(MEASURES)),
        "name": "Ines",
    }
    if chance.random() < 0.4:
        asked["sizes"] = [chance.choice(("M", "3XL", "none"))]
        del asked["measures"]
    return {"verb": verb, "asked": _made_odd(asked, SEWING, chance)}


def _of_text(chosen: corpus.Text, chance: random.Random) -> Asked:
    verb, text = chance.choice(ABOUT_TEXT), chosen.text
    if chance.random() < 0.6:
        text = mangled(text, chance, gentle=chance.random() < 0.7)
    at = chance.randint(0, len(text))
    asked: Asked = {
        "text": text,
        "at": at,
        "start": at,
        "end": chance.randint(at, len(text)),
        "size": chance.choice(("M", "S", "none")),
        "join": chance.choice(("side", "shoulder", "sleeve")),
        "other": chosen.text,
        "book": chance.choice(("tutorial", "blocks", "words")),
        "moving": {"start": at, "end": min(at + 3, len(text)), "value": chance.choice((1, 0, -5, 1e9, "3 cm"))},
        "was": chosen.text,
        "of": chance.choice(("women", "men", "M")),
    }
    return {"verb": verb, "asked": _made_odd(asked, DESIGNING, chance)}


def _made_odd(asked: Asked, names: tuple[str, ...], chance: random.Random) -> Asked:
    """Some of what is asked is of another sort, or mangled, or not there."""
    for name in chance.sample(names, chance.choice((0, 0, 1, 2))):
        asked[name] = chance.choice(WRONG)
    if chance.random() < 0.3:
        name = chance.choice(tuple(asked))
        if isinstance(asked[name], str):
            asked[name] = mangled(asked[name], chance)
        elif isinstance(asked[name], dict) and asked[name]:
            asked[name] = {key: chance.choice((value, *WRONG)) for key, value in asked[name].items()}
        else:
            del asked[name]
    return asked


def answer_asks(name: str, file: str) -> int:
    """Answer the asks of a file, in turn, beside a pattern that was opened. Gives 0, or raises what a verb raised."""
    place = Path.cwd()
    bench = Bench(place / "people", place / file)
    bench.hand_over = _handed
    for line in Path(name).read_text("utf-8", "replace").splitlines():
        try:
            ask = json.loads(line)
        except ValueError:
            continue
        if isinstance(ask, dict) and ask.get("verb") in VERBS and isinstance(ask.get("asked"), dict):
            _answer(VERBS[ask["verb"]], ask["asked"], bench)
    return 0


def _answer(verb: Callable[[Asked, Bench], Asked], asked: Asked, bench: Bench) -> None:
    """One ask; what it gives can be sent to a browser, and so can its notes."""
    try:
        gave: object = verb(asked, bench)
    except Problems as problems:
        gave = notes_told(problems.notes)
        assert gave, "nothing is told"
    except OSError as refused:
        assert refused.strerror
        return
    json.dumps(gave, allow_nan=False).encode()


def _handed(name: str, data: bytes) -> None:
    assert name and data, "an empty file is handed over"
