"""Cases: what lies in a folder, and the commands that are run there. The same kind and number give the same case."""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from draft.command.group import commands as verbs
from draft.command.told_as_data import OPTION, tells
from tests.fuzz import corpus, studio_corpus
from tests.fuzz.beginnings import beginnings
from tests.fuzz.corpus import Files
from tests.fuzz.endless import endless
from tests.fuzz.ends_cases import COARSE, coarse_sits, far_women, proposals, shelves, tries
from tests.fuzz.mangling import mangled, mangled_bytes
from tests.fuzz.options import odd_commands
from tests.fuzz.outputs import all_outputs, outputs_for, planned
from tests.fuzz.page_asks import page_asks
from tests.fuzz.pictures import odd_picture
from tests.fuzz.studio_cases import envelopes, orders, prices, releases, studios, testers
from tests.fuzz.wearers import odd_cloth, odd_person, odd_styles
from tests.pieces.bundled import PATTERNS

Command = tuple[str, ...]
AS_DATA = 0.2
"""The share of commands that tell a program."""
EDITOR = "editor"
"""Instead of serving an editor, its questions are asked of the file that is named."""


@dataclass(frozen=True)
class Case:
    """Files, the commands that are run beside them, and which of the files is odd."""

    kind: str
    number: int
    files: Files
    commands: tuple[Command, ...]
    odd: str

    def with_odd(self, data: bytes) -> Case:
        """The same with other contents of the odd file."""
        return replace(self, files=self.files | {self.odd: data})

    def only(self, command: int) -> Case:
        """The same with one of its commands alone."""
        return replace(self, commands=self.commands[command : command + 1])


def case_of(kind: str, number: int) -> Case:
    """The case of a number."""
    chance = random.Random(f"{kind} {number}")
    files, commands, odd = KINDS[kind](chance)
    return Case(kind, number, files, tuple(_perhaps_as_data(command, chance) for command in commands), odd)


def _perhaps_as_data(command: Command, chance: random.Random) -> Command:
    """Now and then it tells a program, where it can."""
    verb = verbs.verb(command[0])
    if verb is None or not tells(verb) or OPTION in command or chance.random() >= AS_DATA:
        return command
    return (command[0], OPTION, *command[1:])


Made = tuple[Files, Sequence[Command], str]


def _texts(chance: random.Random) -> Made:
    """A mangled pattern, read, drafted and checked; some are also tidied, told about and looked at by an editor."""
    chosen = chance.choice(chance.choice((corpus.bundled, corpus.good, corpus.good, corpus.bad))())
    files = {**dict(chosen.beside), chosen.name: mangled_bytes(chosen.text, chance, chance.random() < 0.4)}
    commands: list[Command] = [("walk", chosen.name)]
    more = (("about", chosen.name), ("true", chosen.name), ("tidy", "--check", chosen.name), (EDITOR, chosen.name))
    commands += [command for command in more if chance.random() < 0.2]
    return files, commands, chosen.name


def _outputs(chance: random.Random) -> Made:
    """A pattern that is mangled gently, through everything that the command writes."""
    chosen = chance.choice(corpus.bundled()) if chance.random() < 0.05 else corpus.small(chance)
    files = {**dict(chosen.beside), chosen.name: planned(chosen, chance).encode()}
    files["people.csv"] = chance.choice(corpus.crowds()).encode()
    files["prices.toml"] = corpus.PRICES.encode()
    if chance.random() < 0.3:
        translated = chosen.name.removesuffix(".piece") + ".de.toml"
        files[translated] = mangled_bytes(corpus.translations(), chance)
    return files, all_outputs(chosen.name, chance), chosen.name


def _pattern(chance: random.Random, files: Files) -> str:
    """A sound pattern: often one of the small ones, which are put beside; else a bundled one."""
    if chance.random() < 0.3:
        return chance.choice(("tidemill", "ropewalk", "marlpit"))
    small = chance.choice([text for text in corpus.good() if "chart" in text.text])
    files.update({**dict(small.beside), small.name: small.text.encode()})
    return small.name


def _charts(chance: random.Random) -> Made:
    files: Files = {"odd.csv": mangled_bytes(chance.choice(corpus.charts()), chance, chance.random() < 0.4)}
    pattern = _pattern(chance, files)
    given = ("--chart", "odd.csv")
    more: tuple[Command, ...] = (
        ("draft", pattern, *given, "--out", "out"),
        ("fit", pattern, *given, "--out", "out"),
        ("size", pattern, *given, "--measure", "bust_girth=98cm", "--measure", "hip_girth=104cm"),
        ("walk", pattern, *given, "--like", "bust M, hip L"),
    )
    return files, [("walk", pattern, *given), *(command for command in more if chance.random() < 0.3)], "odd.csv"


def _bodies(chance: random.Random) -> Made:
    """One person's file, or a table of many."""
    files: Files = {}
    pattern = _pattern(chance, files)
    if chance.random() < 0.4:
        files["odd.csv"] = mangled_bytes(chance.choice(corpus.crowds()), chance, chance.random() < 0.3)
        return files, [("study", pattern, "odd.csv", "--out", "out")], "odd.csv"
    files["odd.toml"] = mangled_bytes(chance.choice(corpus.people()), chance, chance.random() < 0.4)
    given = ("--body", "odd.toml")
    more: tuple[Command, ...] = (
        ("size", pattern, *given),
        ("fit", pattern, *given, "--out", "out"),
        ("draft", pattern, *given, "--out", "out"),
    )
    return files, [("walk", pattern, *given), *(command for command in more if chance.random() < 0.3)], "odd.toml"


def _cloths(chance: random.Random) -> Made:
    """A file about a cloth, or the corners of a remnant."""
    files: Files = {}
    pattern = _pattern(chance, files)
    if chance.random() < 0.2:
        files["odd.csv"] = mangled_bytes(corpus.REMNANT, chance, chance.random() < 0.5)
        return files, [("lay", pattern, "--sizes", "M", "--effort", "quick", "--have", "odd.csv")], "odd.csv"
    files["odd.toml"] = mangled_bytes(chance.choice(corpus.cloths()), chance, chance.random() < 0.5)
    given = ("--fabric", "odd.toml", *(("--unwashed",) if chance.random() < 0.3 else ()))
    more: tuple[Command, ...] = (
        ("fit", pattern, *given),
        ("lay", pattern, *given, "--sizes", "M", "--effort", "quick", "--out", "out"),
        ("draft", pattern, *given, "--sizes", "M", "--out", "out"),
    )
    return files, [("walk", pattern, *given), *(command for command in more if chance.random() < 0.2)], "odd.toml"


def _options(chance: random.Random) -> Made:
    files: Files = {
        "ines.toml": corpus.people()[0].encode(),
        "people.csv": corpus.crowds()[0].encode(),
        "women.csv": corpus.charts()[0].encode(),
        "cloth.toml": corpus.cloths()[0].encode(),
        "rest.csv": corpus.REMNANT.encode(),
        "orders.csv": studio_corpus.ORDERS[0].encode(),
        "replies.csv": studio_corpus.replies().encode(),
        **studio_corpus.studio(),
    }
    pattern = _pattern(chance, files)
    return files, odd_commands(pattern, chance), ""


def _wearers(chance: random.Random) -> Made:
    """Someone unlike everyone else, in styles at their limits and a cloth like no other, through everything made."""
    pattern = chance.choice(PATTERNS)
    files: Files = {"odd.toml": odd_person(chance).encode(), "cloth.toml": odd_cloth(chance).encode()}
    cloth = ("--fabric", "cloth.toml", *(("--unwashed",) if chance.random() < 0.2 else ()))
    given = (pattern, "--body", "odd.toml", *(cloth if chance.random() < 0.5 else ()), *odd_styles(pattern, chance))
    return files, outputs_for(given, chance), "odd.toml"


def _sits(chance: random.Random) -> Made:
    """Someone unlike everyone else on a form, or a text that is mangled: either takes longer than all other verbs."""
    files: Files = {"odd.toml": odd_person(chance).encode(), "cloth.toml": odd_cloth(chance).encode()}
    pattern = chance.choice(("ropewalk", "marlpit", "tidemill"))
    posed = (("--arms", mangled("50deg", chance)), ("--elbows", mangled("30deg", chance)))
    words: tuple[str, ...] = chance.choice(((), *posed))
    words += ("--fabric", "cloth.toml") if chance.random() < 0.3 else ()
    if chance.random() < 0.3:
        chosen = corpus.small(chance)
        files |= {**dict(chosen.beside), chosen.name: planned(chosen, chance).encode()}
        return files, [("sit", chosen.name, "--sizes", "M", "--quick", "--out", "out")], chosen.name
    words = tuple(word.partition("\0")[0] for word in words)
    return files, [("sit", pattern, "--body", "odd.toml", "--quick", *words, "--out", "out")], "odd.toml"


def _pictures(chance: random.Random) -> Made:
    chosen = next(text for text in corpus.good() if text.name == "booklet.piece")
    files = {**dict(chosen.beside), chosen.name: chosen.text.encode()}
    picture = chance.choice(corpus.PICTURES)
    changed = mangled_bytes(picture, chance) if chance.random() < 0.2 else odd_picture(picture, chance).encode()
    files["tube.svg"] = changed
    paper = ("--page", "none", "--cloth", "none", "--sizes", "M")
    return files, [("pack", chosen.name, *paper, "--out", "out")], "tube.svg"


KINDS: dict[str, Callable[[random.Random], Made]] = {
    "texts": _texts,
    "outputs": _outputs,
    "charts": _charts,
    "bodies": _bodies,
    "cloths": _cloths,
    "options": _options,
    "wearers": _wearers,
    "endless": endless,
    "pictures": _pictures,
    "beginnings": beginnings,
    "envelopes": envelopes,
    "orders": orders,
    "prices": prices,
    "releases": releases,
    "sits": _sits,
    "studios": studios,
    "testers": testers,
    "tries": tries,
    "shelves": shelves,
    "proposals": proposals,
    "far women": far_women,
    COARSE: coarse_sits,
    "page": page_asks,
}
