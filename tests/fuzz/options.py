"""Command lines that nobody would type: sound options with odd values, in odd company."""

from __future__ import annotations

import random

from tests.fuzz.mangling import mangled

STYLES = (
    "bust_ease=4cm", "neckline=boat", "hem_length=20cm", "sleeve_length=22 cm", "cap_ease=1%", "shape=pointed",
    "depth=4cm", "length=60cm",
)  # fmt: skip
WHOM = {
    "--sizes": ("M", "M,L", "XS,3XL", "S, M ,L"),
    "--body": ("ines.toml", "none.toml", "women.csv"),
    "--chart": ("women.csv", "people.csv", "none.csv"),
    "--like": ("bust M, hip XL", "bust M/L", "bust 98 cm, waist S", "hip 40 1/2 in"),
    "--measure": ("bust_girth=98cm", "hip_girth=41 in", "shoulder_slope=21deg", "waist_girth=31 1/2 in"),
    "--fabric": ("stable", "rib", "cloth.toml", "none.toml"),
    "--unwashed": (),
    "--style": STYLES,
    "--figure": ("sloping shoulders, bust D", "bust D, sway back", "bust D"),
    "--allowance": ("1cm", "5/8in", "none", "0.5 in"),
}
ON_CLOTH = {"--one-way": (), "--selvedge": ("2cm", "1 in"), "--repeat": ("4cm", "3cmx4cm")}
OF_ORDERS = {
    "--pattern": ("gorse.piece", "tidemill", "none"),
    "--fabric": ("stable", "cloth.toml"),
    "--style": ("room=3cm",),
    "--page": ("none", "a4"),
    "--language": ("en", "de"),
    "--units": ("both", "cm"),
    "--cloth": ("none", "150cm"),
    "--allowance": ("1cm", "none"),
}
VERBS: dict[str, dict[str, tuple[str, ...]]] = {
    "about": {"--style": STYLES},
    "draft": {**WHOM, "--combs": ()},
    "pack": {
        **WHOM,
        "--page": ("letter", "a4,letter", "210x297mm", "8.5x11in", "none", "a5"),
        "--paper": ("a0", "36x48in", "roll-36in", "projector", "roll-24in,a0"),
        "--assemble": ("overlap", "butt"),
        "--units": ("both", "in", "cm"),
        "--language": ("en", "de"),
        "--cloth": ("58in", "150cm", "none", "90cm,1.5m"),
        **ON_CLOTH,
        "--large-print": (),
        "--epub": (),
        "--details": (),
    },
    "export": {
        **WHOM,
        "--to": ("dxf", "cutter"),
        "--width": ("60cm", "2m", "24 in"),
        "--turn": (),
        "--notches": ("slit", "vee"),
        "--inner": (),
        "--copies": (),
        "--hpgl": (),
    },
    "walk": {**WHOM, "--sections": ()},
    "true": {**WHOM, "--over": ("4cm", "1 in", "30mm")},
    "compare": {
        "--sizes": ("M", "M,L"),
        "--between": ("M,L", "S,XL"),
        "--old-body": ("ines.toml",),
        "--new-body": ("ines.toml",),
        "--style": STYLES,
        "--new-style": STYLES,
    },
    "size": {**WHOM, "--wear": ("closer", "as drafted", "looser")},
    "fit": WHOM,
    "study": {"--chart": ("women.csv",), "--fabric": ("rib", "cloth.toml"), "--style": STYLES},
    "lay": {
        **WHOM,
        **ON_CLOTH,
        "--width": ("150cm", "58in", "90 cm", "lining=140cm"),
        "--of": ("lining", "shell"),
        "--washed": (),
        "--details": (),
        "--shrink-across": ("5%", "0.05", "3"),
        "--shrink-down": ("5%", "8"),
        "--ends": ("1 in", "0", "5cm"),
        "--table": (),
        "--together": (),
        "--copies": ("1", "2", "3"),
        "--have": ("2m x 150cm", "60cm by 1.5m", "rest.csv", "80x60in"),
        "--kind": ("open", "one-fold", "two-folds"),
    },
    "measures": {},
    "words": {},
    "tidy": {"--check": ()},
    "figures": {},
    "chart": {
        "--chart": ("petite", "women.csv"),
        "--people": ("women", "men", "people.csv"),
        "--stature": ("150cm,160cm",),
    },
    "envelope": {"--with": ("cloth.toml", "none.toml"), "--unpack": ("out",), "--out": ("mine.envelope", "mine.zip")},
    "new": {
        "--from": ("tidemill", "gorse.piece"),
        "--copy": ("tidemill", "gorse.piece"),
        "--block": ("gorse.piece:panel", "tidemill"),
        "--template": ("bands", "bands:folded_band"),
        "--title": ("Withy top",),
        "--allowance": ("1 cm", "1/2 in"),
        "--unit": ("mm", "cm"),
        "--fold": (),
    },
    "cost": {
        **WHOM,
        "--prices": ("studio.toml", "cloth.toml"),
        "--width": ("150cm", "58in"),
        "--hours": ("2.5", "2,5", "3h"),
        "--effort": ("quick",),
    },
    "sit": {
        **WHOM,
        "--arms": ("50deg", "85deg"),
        "--elbows": ("30deg",),
        "--try-on": ("M,L",),
        "--ends": (),
        "--beside": ("tidemill",),
        "--beside-style": STYLES,
        "--units": ("both", "cm"),
        "--language": ("en", "de"),
    },
    "release": {"--language": ("en", "en,de"), "--page": ("none", "a4"), "--paper": ("a0",), "--testers": ()},
    "testers": {"--pattern": ("gorse.piece", "tidemill")},
    "orders": {**OF_ORDERS, "--workers": ("1", "2")},
    "cut": {**OF_ORDERS, "--prices": ("studio.toml",), "--at-once": ("1", "4"), "--effort": ("quick",)},
}
WRITES = ("draft", "pack", "export", "study", "sit", "release", "orders")
MAY_WRITE = ("compare", "fit", "lay", "measures", "figures", "cost", "testers", "cut")
FILES = {"release": "gorse.piece", "testers": "replies.csv", "orders": "orders.csv", "cut": "orders.csv", "new": "mine"}
"""What a verb is given where that is not the pattern."""


def odd_commands(pattern: str, chance: random.Random) -> list[tuple[str, ...]]:
    """One command with some options, most of their values odd."""
    verb = chance.choice(tuple(VERBS))
    words = [verb, *_arguments(verb, pattern, chance)]
    known = VERBS[verb]
    for name in chance.sample(tuple(known), chance.randint(0, min(4, len(known)))):
        words += [name, _value(known[name], chance)] if known[name] else [name]
    if verb == "export" and "--to" not in words:
        words += ["--to", chance.choice(("dxf", "cutter"))]
    if verb in ("orders", "cut", "testers") and "--pattern" not in words:
        words += ["--pattern", "gorse.piece"]
    if verb == "sit":
        words[1] = "none.piece"  # what is told before anything is dressed, which takes half a minute
    if verb == "lay":
        words += ["--effort", "quick"]
    if verb in ("pack", "lay", "draft", "export") and not {"--sizes", "--body", "--like", "--measure"} & set(words):
        words += ["--sizes", "M"]
    if verb in WRITES or (verb in MAY_WRITE and chance.random() < 0.4):
        words += ["--out", "out"]
    if chance.random() < 0.05:
        words.insert(chance.randint(1, len(words)), _given(mangled("--help", chance)))
    return [tuple(words)]


def _arguments(verb: str, pattern: str, chance: random.Random) -> list[str]:
    if verb == "measures":
        return [] if chance.random() < 0.2 else [_value(("bust_girth", "hip depth", "stature"), chance)]
    if verb == "figures":
        return []
    if verb in FILES:
        return [_value((FILES[verb],), chance)]
    if verb == "words":
        return [_value(("notch", "along", "curve arriving"), chance)]
    first = _given(mangled(pattern, chance)) if chance.random() < 0.1 and verb != "tidy" else pattern
    return [first, *(["people.csv"] if verb == "study" else [])]


def _value(sound: tuple[str, ...], chance: random.Random) -> str:
    text = chance.choice(sound)
    if chance.random() < 0.35:
        return text
    return _given(mangled(text, chance) + chance.choice(("", "", "", "", ",", "=", "\udcff", " ", "x" * 5000)))


def _given(word: str) -> str:
    """A word that a system can hand to a program: it ends at a NUL."""
    return word.partition("\0")[0]
