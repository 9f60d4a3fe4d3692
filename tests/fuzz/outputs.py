"""Everything that the command can make of one pattern, each with options by chance."""

from __future__ import annotations

import random
from pathlib import Path

from draft.base.notes import Problems, Source
from draft.base.resources import folder
from draft.language.reader import read
from draft.plan.library import with_used
from draft.plan.make import plan_texts
from tests.fuzz.corpus import Text
from tests.fuzz.mangling import mangled
from tests.project.checkout import ROOT

OUT = ("--out", "out")
PAGES = ("letter", "a4", "a5", "legal", "tabloid", "a3", "210x297mm", "letter,a4", "none")
LARGE = ("a0", "36x48in", "roll-24in", "roll-36in", "roll-42in", "projector")


TRIES = 12


def planned(chosen: Text, chance: random.Random) -> str:
    """The text mangled until there is a plan of it, as far as one is found soon: others are never drawn."""
    text = chosen.text
    for _ in range(TRIES):
        text = mangled(chosen.text, chance, gentle=True)
        if _has_plan(chosen.name, text):
            break
    return text


def _has_plan(name: str, text: str) -> bool:
    """Whether a text can be planned; also where that fails in another way, which the case itself is to show."""
    places = (ROOT / "tests" / "good", folder("pieces"))
    beside = next((place for place in places if (place / name).is_file()), Path())
    try:
        plan_texts(with_used(read(Source(name, text)), beside), {})
    except Problems:
        return False
    except Exception:
        return True
    return True


def all_outputs(pattern: str, chance: random.Random) -> list[tuple[str, ...]]:
    """Commands for one or two sizes of the pattern: as many as a maker waits for at a time.

    What seams are and what a pack holds is asked in every case, all else in a share of them.
    """
    sizes = ("--sizes", chance.choice(("M", "S", "L", "S,L", "M,L")))

    def perhaps(*words: str) -> tuple[str, ...]:
        return words if chance.random() < 0.3 else ()

    width = perhaps("--width", chance.choice(("60cm", "1.5m", "5m")))
    drawn = ("--inner", "--hpgl", *perhaps("--copies"), *perhaps("--notches", "vee"), *perhaps("--turn"))
    some: list[tuple[float, tuple[tuple[str, ...], ...]]] = [
        (1, (("walk", pattern, *sizes, *perhaps("--sections")),)),
        (0.35, (("draft", pattern, *sizes, *perhaps("--combs"), *OUT),)),
        (0.5, (("about", pattern),)),
        (0.5, (("true", pattern, *sizes, *perhaps("--over", chance.choice(("1 mm", "30 cm", "3 in")))),)),
        (0.5, (("fit", pattern, *sizes, *OUT),)),
        (0.35, (("size", pattern, "--measure", "bust_girth=98cm", *perhaps("--measure", "hip_girth=41in")),)),
        (0.35, (("compare", pattern, "--between", "M,L", *OUT),)),
        (0.35, (("study", pattern, "people.csv", *OUT),)),
        (0.35, (("export", pattern, *sizes, "--to", "dxf", *OUT),)),
        (
            0.5,
            (("export", pattern, *sizes, "--to", "cutter", *width, *(drawn if chance.random() < 0.5 else ()), *OUT),),
        ),
        (0.7, (_lay(pattern, sizes, chance),)),
        (0.15, (("cost", pattern, *sizes, "--prices", "prices.toml", *OUT),)),
        (1, (_pack(pattern, sizes, chance),)),
        (0.35, (("editor", pattern),)),
        (0.35, (("tidy", pattern), ("walk", pattern))),
    ]
    return [command for share, commands in some if chance.random() < share for command in commands]


def outputs_for(given: tuple[str, ...], chance: random.Random) -> list[tuple[str, ...]]:
    """Commands for one person, whom `given` names after the pattern."""
    pattern, *whom = given
    words = tuple(whom)
    return [
        ("walk", *given, *(("--sections",) if chance.random() < 0.3 else ())),
        ("draft", *given, "--combs", *OUT),
        ("true", *given),
        ("fit", *given, *OUT),
        ("size", *given, "--wear", chance.choice(("closer", "as drafted", "looser"))),
        ("export", *given, "--to", chance.choice(("dxf", "cutter")), *OUT),
        _lay(pattern, words, chance),
        _pack(pattern, words, chance),
    ]


def _lay(pattern: str, sizes: tuple[str, ...], chance: random.Random) -> tuple[str, ...]:
    ways: tuple[tuple[str, ...], ...] = (
        (), ("--one-way",), ("--together",), ("--copies", "2"), ("--have", "2m x 150cm"), ("--width", "90cm"),
        ("--have", "60cm x 150cm", "--have", "1m x 70cm"), ("--kind", "one-fold"), ("--shrink-down", "5%"),
        ("--repeat", "4cm"), ("--repeat", "3cmx4cm", "--kind", "open"), ("--selvedge", "2cm"),
    )  # fmt: skip
    return ("lay", pattern, *sizes, "--effort", "quick", *chance.choice(ways), *OUT)


def _pack(pattern: str, sizes: tuple[str, ...], chance: random.Random) -> tuple[str, ...]:
    large = ",".join(chance.sample(LARGE, chance.choice((0, 0, 1, 2))))
    return (
        "pack", pattern, *sizes,
        "--page", chance.choice(PAGES),
        "--paper", large,
        "--assemble", chance.choice(("overlap", "butt")),
        "--units", chance.choice(("both", "in", "cm")),
        "--language", chance.choice(("en", "en", "de")),
        "--cloth", chance.choice(("58in", "none", "90cm,150cm")),
        *(("--epub",) if chance.random() < 0.2 else ()),
        *(("--large-print",) if chance.random() < 0.1 else ()),
        *(("--allowance", chance.choice(("1cm", "5/8in", "none"))) if chance.random() < 0.1 else ()),
        *OUT,
    )  # fmt: skip
