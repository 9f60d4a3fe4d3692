"""Cases of a studio's verbs: orders and their journals, replies of testers, releases, prices, settings, envelopes."""

from __future__ import annotations

import random
import re
from collections.abc import Sequence

from draft.base.envelope import Envelope, envelope_bytes
from draft.base.envelope_rules import CONTENTS
from draft.base.zipped import ZipError, unzipped, zip_bytes
from tests.fuzz import studio_corpus as sound
from tests.fuzz.corpus import Files
from tests.fuzz.mangling import mangled, mangled_bytes
from tests.fuzz.odd_sheets import odd_sheet
from tests.studio.withy_bank import STUDIO

Made = tuple[Files, Sequence[tuple[str, ...]], str]
GORSE = ("--pattern", "gorse.piece")
PLAIN = ("--page", "none", "--cloth", "none")
JOURNAL = ("packs/orders.journal", "packs/orders.journal", "packs/orders.csv", "packs/A-1", "packs/SHA256SUMS")


def orders(chance: random.Random) -> Made:
    """A table of orders is mangled, or what an earlier start has left, or a start is killed; then it is made again."""
    files, table = dict(sound.studio()), chance.choice(sound.ORDERS)
    make = ("orders", "odd.csv", *GORSE, *PLAIN, "--workers", "1", "--out", "packs")
    if chance.random() < 0.7:
        files["odd.csv"] = mangled_bytes(table, chance, chance.random() < 0.5)
        return files, [make], "odd.csv"
    files["odd.csv"] = table.encode()
    if chance.random() < 0.3:
        return files, [("killed", str(chance.uniform(0.3, 4)), *make), make], "odd.csv"
    return files, [make, ("damaged", chance.choice(JOURNAL)), make], "odd.csv"


def prices(chance: random.Random) -> Made:
    """A studio's file with prices is mangled, or a table of orders that is to be cut."""
    files, table = dict(sound.studio()), chance.choice(sound.ORDERS)
    cut = ("cut", "odd.csv", *GORSE, "--at-once", chance.choice(("1", "4")), "--prices", "odd.toml", "--out", "out")
    hours = ("--hours", mangled("2.5", chance)) if chance.random() < 0.3 else ()
    files |= {"odd.csv": table.encode(), "odd.toml": sound.PRICES.encode()}
    if chance.random() < 0.4:
        files["odd.csv"] = mangled_bytes(table, chance, chance.random() < 0.5)
        return files, [cut], "odd.csv"
    files["odd.toml"] = mangled_bytes(sound.PRICES, chance, chance.random() < 0.5)
    cost = ("cost", "gorse.piece", *hours, "--prices", "odd.toml", *(("--out", "out") if chance.random() < 0.5 else ()))
    return files, [cost, *([cut] if chance.random() < 0.2 else [])], "odd.toml"


def testers(chance: random.Random) -> Made:
    """Replies in a table, or sheets that somebody filled in oddly or damaged."""
    files = dict(sound.studio())
    more = ("--out", "out") if chance.random() < 0.4 else ()
    name = "odd.pdf" if chance.random() < 0.4 else "odd.csv"
    files[name] = odd_sheet(sound.sheet(), chance) if name == "odd.pdf" else _odd_replies(chance)
    return files, [("testers", name, *GORSE, *more)], name


def _odd_replies(chance: random.Random) -> bytes:
    return mangled_bytes(sound.replies(), chance, chance.random() < 0.4)


def studios(chance: random.Random) -> Made:
    """A studio's settings are mangled, and lie beside a pattern."""
    files = dict(sound.studio())
    said = chance.choice((sound.QUICK, STUDIO, sound.PRICES))
    files["studio.toml"] = mangled_bytes(said, chance, chance.random() < 0.5)
    if chance.random() < 0.2:
        files["studio.de.toml"] = mangled_bytes('name = "Weidenufer"\nlicence = "Nur privat."\n', chance)
    pack = ("pack", "gorse.piece", *PLAIN, "--sizes", "M", "--language", chance.choice(("en", "de")), "--out", "out")
    more = [("envelope", "gorse.piece", "--out", "mine.envelope"), ("about", "mine.envelope")]
    return files, [pack, *(more if chance.random() < 0.3 else [])], "studio.toml"


def releases(chance: random.Random) -> Made:
    """A version is published, of a text or settings that are mangled; then another."""
    files = dict(sound.studio())
    text = sound.SMALL.format(name="gorse")
    if chance.random() < 0.6:
        text = re.sub(r"\d+(?= cm)", lambda found: _nudged(found[0], chance), text)
    else:
        text = mangled(text, chance, chance.random() < 0.7)
    files["gorse.piece"] = text.encode("utf-8", "surrogatepass")
    if chance.random() < 0.2:
        files["studio.toml"] = mangled_bytes(sound.QUICK, chance)
    words: tuple[str, ...] = ("--testers",) if chance.random() < 0.3 else ()
    words += ("--language", chance.choice(("en", "de", "en,de", "xx"))) if chance.random() < 0.3 else ()
    make = ("release", "gorse.piece", *words, "--page", chance.choice(("none", "none", "a4")), "--out", "out")
    return files, [make], "gorse.piece"


def _nudged(number: str, chance: random.Random) -> str:
    """Now and then another length."""
    return number if chance.random() < 0.6 else f"{float(number) * chance.choice((0.1, 0.7, 1.1, 1.5, 3)):.4g}"


def envelopes(chance: random.Random) -> Made:
    """An envelope with bytes changed, or a sound one of odd files."""
    data = sound.envelope()
    changed = _other_files(data, chance) if chance.random() < 0.6 else _other_bytes(data, chance)
    some = (
        ("walk", "odd.envelope"), ("envelope", "odd.envelope", "--unpack", "out"), ("about", "odd.envelope"),
        ("envelope", "odd.envelope"), ("pack", "odd.envelope", *PLAIN, "--sizes", "M", "--out", "out"),
    )  # fmt: skip
    return {"odd.envelope": changed}, chance.sample(some, 2), "odd.envelope"


def _other_bytes(data: bytes, chance: random.Random) -> bytes:
    changed = bytearray(data)
    for _ in range(chance.choice((1, 1, 3, 40))):
        at = chance.choice((chance.randrange(len(changed)), chance.randrange(60), -1 - chance.randrange(60)))
        changed[at] = chance.randrange(256)
    return bytes(changed[: chance.randrange(len(changed))] if chance.random() < 0.2 else changed)


def _other_files(data: bytes, chance: random.Random) -> bytes:
    """Written as envelopes are, with a file or a name that is odd, one lost, or one more."""
    files = unzipped(data)
    name = chance.choice(tuple(files))
    way = chance.random()
    if way < 0.5:
        files[name] = mangled_bytes(files[name].decode("utf-8", "replace"), chance, chance.random() < 0.4)
    elif way < 0.7:
        odd = mangled(chance.choice((name, "../up.piece", "/etc/hosts", "a/b.csv", "con.csv")), chance)
        files = {odd if one == name else one: held for one, held in files.items()}
    elif way < 0.85:
        del files[name]
    else:
        files[mangled(name, chance)] = files[name]
    files = {one.encode("utf-8", "replace").decode()[:60_000]: held for one, held in files.items()}
    own = {one: held for one, held in files.items() if one != CONTENTS}
    try:
        return envelope_bytes(Envelope("gorse.piece", own)) if chance.random() < 0.8 else zip_bytes(files)
    except ZipError:
        return zip_bytes(files)
