"""Cases at ends: styles tried, the shelf, charts proposed, women at the ends of a survey, coarse garments worn."""

from __future__ import annotations

import random

from draft.bodies.measures import MEASURES
from tests.fuzz import corpus
from tests.fuzz.corpus import Files
from tests.fuzz.mangling import mangled, mangled_bytes
from tests.fuzz.outputs import outputs_for, planned
from tests.fuzz.wearers import odd_cloth, odd_styles
from tests.outside.drawn_women import COVARIANCES, MEANS
from tests.pieces.bundled import PATTERNS

COARSE, EDGE = "coarse", 45.0
"""The kind of case in which a garment is dressed of triangles with edges so long, mm, so that it takes a second."""
Made = tuple[Files, list[tuple[str, ...]], str]
_FAR = (2.0, 2.6, 3.3)
"""Deviations from the middle of the survey: one in twenty, in a hundred, in a thousand is farther off."""


def _said(word: str) -> str:
    """A word that a system can hand to a program."""
    return word.partition("\0")[0].encode("utf-8", "replace").decode()


def _perhaps(chance: random.Random, share: float, *words: str) -> tuple[str, ...]:
    return words if chance.random() < share else ()


def tries(chance: random.Random) -> Made:
    """Every style of a mangled text at both ends."""
    some = [text for text in corpus.good() if "\nstyle" in text.text]
    chosen = chance.choice(some)
    files: Files = {**dict(chosen.beside), chosen.name: planned(chosen, chance).encode()}
    files["odd.csv"] = mangled_bytes(chance.choice(corpus.charts()), chance, True)
    files["cloth.toml"] = odd_cloth(chance).encode()
    words = (
        *_perhaps(chance, 0.2, "--chart", "odd.csv"),
        *_perhaps(chance, 0.3, "--fabric", "cloth.toml"),
        *_perhaps(chance, 0.2, "--style", _said(mangled("ease=4cm", chance))),
        *_perhaps(chance, 0.6, "--out", "out"),
    )
    return files, [("try", chosen.name, *words)], chosen.name


def shelves(chance: random.Random) -> Made:
    """What is bundled, told and drawn, with words behind it that do not belong there."""
    words = _perhaps(chance, 0.3, "--out", "out") + _perhaps(chance, 0.4, _said(mangled("--out", chance)))
    about = ("about", _said(mangled(chance.choice(PATTERNS), chance)))
    return {}, [("shelf", *words), about], ""


def proposals(chance: random.Random) -> Made:
    """A chart is proposed for people in a mangled table, or for a survey's, of sizes by odd names."""
    files: Files = {"odd.csv": mangled_bytes(chance.choice(corpus.crowds()), chance, chance.random() < 0.7)}
    names = chance.choice(("S,M,L", "XS,S,M,L,XL", "36,38,40,42", "M", "one,two"))
    sizes = names if chance.random() < 0.6 else _said(mangled(names, chance))
    words = (
        *_perhaps(chance, 0.8, "--people", chance.choice(("odd.csv", "odd.csv", "women", "men"))),
        *_perhaps(chance, 0.4, "--within", _odd(chance, "3 cm", "0 cm", "1 in", "40 cm")),
        *_perhaps(chance, 0.4, "--bust", _odd(chance, "80cm,120cm", "120cm,80cm", "32in,32in", "1mm,9m")),
        *_perhaps(chance, 0.3, "--stature", _odd(chance, "150cm,160cm", "5ft,6ft", "190cm,191cm")),
        *_perhaps(chance, 0.4, "--out", "out"),
    )
    return files, [("chart", *_perhaps(chance, 0.3, "odd.csv"), "--propose", sizes, *words)], "odd.csv"


def _odd(chance: random.Random, *sound: str) -> str:
    found = chance.choice(sound)
    return found if chance.random() < 0.6 else _said(mangled(found, chance))


def far_women(chance: random.Random) -> Made:
    """A woman at the end of a survey in some direction of all of its measures, through everything that is made."""
    files: Files = {"odd.toml": far_woman(chance).encode()}
    pattern = chance.choice([name for name in PATTERNS if name not in ("roundhouse", "slipway")])
    given = (pattern, "--body", "odd.toml", *(odd_styles(pattern, chance) if chance.random() < 0.4 else ()))
    return files, outputs_for(given, chance), "odd.toml"


def far_woman(chance: random.Random) -> str:
    """Her file: the middle of the survey, and a share of its covariances in one direction, deviations off."""
    names = list(MEANS)
    whole = [[COVARIANCES[max(j, k)][min(j, k)] for k in range(len(names))] for j in range(len(names))]
    way = [chance.gauss(0, 1) for _ in names]
    off = [sum(a * b for a, b in zip(row, way, strict=True)) for row in whole]
    size = sum(a * b for a, b in zip(off, way, strict=True)) ** 0.5
    far = chance.choice(_FAR)
    lines = ['name = "Far"', "[measures]"]
    for name, step in zip(names, off, strict=True):
        if name in MEASURES and (name in ("bust_girth", "waist_girth", "hip_girth") or chance.random() < 0.7):
            unit = "deg" if name == "shoulder_slope" else "cm"
            lines.append(f'{name} = "{MEANS[name] + far * step / size:.2f} {unit}"')
    return "\n".join([*lines, ""])


def coarse_sits(chance: random.Random) -> Made:
    """As the cases that dress, of triangles so large that many can be tried."""
    files: Files = {"odd.toml": far_woman(chance).encode(), "cloth.toml": odd_cloth(chance).encode()}
    words = (
        *_perhaps(chance, 0.4, "--arms", _odd(chance, "50deg", "85deg", "-80deg", "20deg")),
        *_perhaps(chance, 0.2, "--elbows", _odd(chance, "30deg", "90deg")),
        *_perhaps(chance, 0.3, "--fabric", "cloth.toml"),
        *_perhaps(chance, 0.3, "--language", "de"),
    )
    if chance.random() < 0.4:
        chosen = corpus.small(chance)
        files |= {**dict(chosen.beside), chosen.name: planned(chosen, chance).encode()}
        return files, [("sit", chosen.name, "--sizes", "M", "--quick", *words, "--out", "out")], chosen.name
    pattern = chance.choice([name for name in PATTERNS if name not in ("roundhouse", "slipway")])
    styles = odd_styles(pattern, chance) if chance.random() < 0.5 else ()
    whom = ("--body", "odd.toml") if chance.random() < 0.8 else ("--sizes", chance.choice(("S", "3XL")))
    return files, [("sit", pattern, *whom, "--quick", *styles, *words, "--out", "out")], "odd.toml"
