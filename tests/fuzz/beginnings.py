"""Cases of patterns that are begun: from outlines that are odd, from others that are mangled; then walked."""

from __future__ import annotations

import random
from collections.abc import Sequence

from tests.fuzz import corpus
from tests.fuzz import studio_corpus as sound
from tests.fuzz.corpus import Files
from tests.fuzz.mangling import NUMBERS, mangled, mangled_bytes
from tests.fuzz.pictures import odd_picture

Made = tuple[Files, Sequence[tuple[str, ...]], str]
AS_DRAWN: tuple[tuple[str, ...], ...] = (
    (), (), ("--unit", "mm"), ("--unit", "in"), ("--unit", "px"), ("--layer", "BACK"), ("--join", "5mm"), ("--close",),
    ("--fold",), ("--allowance-included", "1cm"), ("--join", "1m", "--close"), ("--fold", "--close", "--unit", "cm"),
)  # fmt: skip


def beginnings(chance: random.Random) -> Made:
    """Half of them from outlines."""
    return _outlines(chance) if chance.random() < 0.6 else _others(chance)


def _outlines(chance: random.Random) -> Made:
    if chance.random() < 0.4:
        name, data = "odd.dxf", _odd_dxf(sound.dxf(), chance).encode("utf-8", "surrogatepass")
    else:
        name, drawing = "odd.svg", chance.choice((*sound.DRAWINGS, *corpus.PICTURES))
        way = chance.random()
        data = odd_picture(drawing, chance).encode() if way < 0.5 else mangled_bytes(drawing, chance, way < 0.9)
    words = chance.choice(AS_DRAWN)
    return {name: data}, [("new", "mine", "--from-outline", name, *words), ("walk", "mine.piece")], name


def _odd_dxf(text: str, chance: random.Random) -> str:
    """Values and group codes of DXF by chance; most of them stay pairs of lines."""
    if chance.random() < 0.2:
        return mangled(text, chance)
    head, entities, rest = text.partition("  0\nSECTION\n  2\nENTITIES\n")
    lines = rest.split("\n")
    for _ in range(chance.randint(1, 4)):
        at = chance.randrange(0, len(lines) - 2, 2)
        way = chance.random()
        if way < 0.5:
            lines[at + 1] = chance.choice((*NUMBERS, "LINE", "SPLINE", "INSERT", "ENDSEC", "LWPOLYLINE", ""))
        elif way < 0.7:
            lines[at] = chance.choice((" 10", " 20", " 40", " 70", " 71", " 42", "  0", "999", "-5", "x"))
        elif way < 0.85:
            del lines[at : at + 2]
        else:
            lines[at:at] = lines[at : at + 2 * chance.choice((1, 4, 20))] * chance.choice((1, 3, 100))
    return head + entities + "\n".join(lines)


def _others(chance: random.Random) -> Made:
    """From a pattern, its blocks or its templates, with options that are odd."""
    chosen = chance.choice(corpus.good())
    files: Files = {**dict(chosen.beside), chosen.name: mangled_bytes(chosen.text, chance, chance.random() < 0.8)}
    way = chance.choice(("--from", "--copy", "--block", "--template"))
    names = ("", "", f":{mangled('front', chance)}") if way in ("--block", "--template") else ("",)
    source = (chosen.name if chance.random() < 0.9 else "marlpit") + chance.choice(names).partition("\0")[0]
    title = ("--title", mangled("Marlpit top", chance).partition("\0")[0]) if chance.random() < 0.3 else ()
    name = "mine" if chance.random() < 0.8 else mangled("mine", chance).partition("\0")[0] or "mine"
    allowance = ("--allowance", mangled("1 cm", chance).partition("\0")[0]) if chance.random() < 0.2 else ()
    words = tuple(word.encode("utf-8", "replace").decode() for word in ("new", name, way, source, *title, *allowance))
    return files, [words, ("walk", "mine.piece")], chosen.name
