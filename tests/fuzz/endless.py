"""One thing again and again, up to the size that a file may have, in each kind of file and at each kind of place."""

from __future__ import annotations

import random

from tests.fuzz import corpus

PARTS = (
    "a", "9", " ", "\t", ".", "a.", "a . ", "_", "-", "a ", "1 ", ", ", "a, ", "'", '"', '""', '" "', "#",
    ":", "=", "[", "{", "(", ")",
    "\\", "/", "%", "\u00e9", "\u0301", "\u3000", "a1", "1.", "1e", "0x", "+", "1 + ", "a = ", "\n", "a\n",
    "    \n", "    a\n",
    "only for ", "by ", "for a ", "turned ", "angle ", "square to ", "a to ", "1,", ";", "= ", "x", "<g>",
    "&", "<!--", "]]>",
)  # fmt: skip
PLACES = {
    "odd.piece": (
        "{}", 'pattern p\n    title "{}"\n', "pattern {}\n", "let\n    a = {}\n", "let\n    {} = 1 cm\n",
        "let\n    a {}\n",
        "piece p\n    points\n        a at {}\n", "piece p\n    points\n        a from {}\n", "# {}\npiece p\n",
        "piece p\n    outline\n        e a to b {}\n", "join\n    j a.b to {}\n", "style\n    s 1 cm from {}\n",
        "style\n    s a of {}\n", "piece p\n    cut {}\n", 'pattern p\n    uses "{}.piece"\n',
        "finished\n    a around = {}\n",
        'let\n    a = 1 cm "{}"\n', "piece p\n    a\n    {}\n", "booklet\n    step {}\n", "check\n    {}\n",
    ),
    "odd.csv": (
        "{}", "measure,unit,S,M\nbust_girth,cm,86,{}\n", "measure,unit,{}\nbust_girth,cm,86\n",
        "measure,unit,S\n{},cm,86\n",
        "measure,unit,S\nbust_girth,{},86\n", 'measure,unit,S,M\nbust_girth,cm,"{}",94\n',
    ),
    "people.csv": ("name,bust_girth cm\n{},98\n", "name,{}\nAda,98\n", "name,bust_girth cm\nAda,{}\n", "{}"),
    "odd.toml": (
        "{}", '[measures]\nbust_girth = "{}"\n', "[measures]\nbust_girth = {}\n",
        '[measures]\n{} = "98 cm"\n', 'name = "{}"\n',
        "[{}]\n", 'width = "{}"\n', "width = {}\n", 'name = """{}\n',
    ),
    "rest.csv": ("0 cm, 0 cm\n{}\n", "{}"),
    "tube.svg": ("{}", '<svg viewBox="{}"/>', '<svg viewBox="0 0 9 9"><path d="M0 0 {}"/></svg>', "<svg>{}</svg>",
                 '<svg viewBox="0 0 9 9"><style>{}</style></svg>', '<svg viewBox="0 0 9 9"><text>{}</text></svg>',
                 '<svg viewBox="0 0 9 9"><g transform="{}"/></svg>',
                 '<svg viewBox="0 0 9 9"><rect style="{}"/></svg>'),
    "booklet.de.toml": ('"Tube" = "{}"\n', '"{}" = "Rohr"\n', "{}"),
}  # fmt: skip
COMMANDS = {
    "odd.piece": (
        ("walk", "odd.piece"), ("editor", "odd.piece"), ("tidy", "--check", "odd.piece"), ("about", "odd.piece"),
    ),
    "odd.csv": (("walk", "tidemill", "--chart", "odd.csv"),),
    "people.csv": (("study", "tidemill", "people.csv", "--out", "out"),),
    "odd.toml": (("walk", "tidemill", "--body", "odd.toml"), ("walk", "tidemill", "--fabric", "odd.toml")),
    "rest.csv": (("lay", "tidemill", "--sizes", "M", "--effort", "quick", "--have", "rest.csv"),),
    "tube.svg": (("pack", "booklet.piece", "--page", "none", "--cloth", "none", "--sizes", "M", "--out", "out"),),
    "booklet.de.toml": (
        ("pack", "booklet.piece", "--page", "none", "--cloth", "none", "--sizes", "M", "--language", "de",
        "--out", "out"),
    ),
}  # fmt: skip
LONGEST = 990_000


def endless(chance: random.Random) -> tuple[corpus.Files, tuple[tuple[str, ...], ...], str]:
    """A file, what is asked of it, and its name."""
    name = chance.choice(("odd.piece", *PLACES))
    place, part, length = chance.choice(PLACES[name]), chance.choice(PARTS), chance.choice((10_000, 100_000, LONGEST))
    booklet = next(text for text in corpus.good() if text.name == "booklet.piece")
    files: corpus.Files = {**dict(booklet.beside), booklet.name: booklet.text.encode()}
    files[name] = place.replace("{}", part * (length // len(part.encode()))).encode()
    return files, COMMANDS[name], name
