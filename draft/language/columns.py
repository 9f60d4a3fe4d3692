"""What the columns of a line are: a name, its value, the sentence at the end. One short rule for each sort of line.

A block that is not named here has no columns: its words are set with single spaces.
"""

from __future__ import annotations

from draft.base.record import dataclass
from draft.language.written import Line, WrittenWord

SETTINGS = frozenset(
    {
        "title",
        "maker",
        "chart",
        "uses",
        "version",
        "changed",
        "edition",
        "wearer",
        "allowance",
        "cut",
        "grain",
        "stretch",
    }
)


@dataclass(frozen=True)
class Columns:
    """Where a line is divided: word numbers at which cells after the first begin, and where its sentence does.

    Lines of one `sort` under one header are set in columns together. A line whose sort is empty has no columns, and its
    sentence lines up all the same.
    """

    sort: str = ""
    cells: tuple[int, ...] = ()
    gap: int = 0
    """Spaces between cells, where they differ from what the layout does of itself."""
    sentence: int | None = None
    together: bool = False
    """Sentences line up over the whole block, not only as far as the next empty line or comment."""
    right: int | None = None
    """The cell whose texts end below one another: quantities, so that tens stand under tens."""


def columns(line: Line, block: str, nested: bool) -> Columns:
    """The columns of a line in a block; `nested` when the line stands under another line of that block."""
    words = line.words
    if words[0].text == "without" and (len(words) == 2 or words[2].text == ","):
        return Columns()
    sentence = _sentence(words)
    if words[0].text == "without":
        return Columns()
    if nested:
        return Columns("row", (1,)) if block == "points" else Columns()
    if block in ("piece", "block", "template"):
        return _inside_piece(words, sentence)
    rule = _RULES.get(block)
    return rule(words, sentence) if rule else Columns()


def _sentence(words: tuple[WrittenWord, ...]) -> int | None:
    """The number of the word with which the sentence at the end of a line begins; `"..." else "..."` is one."""
    if len(words) < 2 or words[-1].sort != "STRING" or words[-2].text == "marked":
        return None
    return len(words) - (3 if words[-2].text == "else" else 1)


def _inside_piece(words: tuple[WrittenWord, ...], sentence: int | None) -> Columns:
    if len(words) > 1 and words[1].text == "=":
        return _definition(words, sentence)
    return Columns("setting", (1,)) if words[0].text in SETTINGS else Columns()


def _setting(words: tuple[WrittenWord, ...], sentence: int | None) -> Columns:
    return Columns("setting", (1,))


def _definition(words: tuple[WrittenWord, ...], sentence: int | None) -> Columns:
    return Columns("definition", (_find(words, "="),), 1, sentence)


def _style(words: tuple[WrittenWord, ...], sentence: int | None) -> Columns:
    limits = _find(words, "from", "of")
    return Columns("style", (1, limits), sentence=sentence, together=True, right=1)


def _solve(words: tuple[WrittenWord, ...], sentence: int | None) -> Columns:
    wanted = words[0].text == "so" and words[1].text == "that"
    return Columns(sentence=sentence) if wanted else Columns("unknown", (1,), sentence=sentence)


def _input(words: tuple[WrittenWord, ...], sentence: int | None) -> Columns:
    default = _find(words, "=")
    return Columns("input", (1, default) if default < len(words) else (1,), sentence=sentence, together=True)


def _body(words: tuple[WrittenWord, ...], sentence: int | None) -> Columns:
    own = len(words) > 1 and words[1].text == "from"
    return Columns("own measure", (1,), sentence=sentence, together=True) if own else Columns()


def _named(words: tuple[WrittenWord, ...], sentence: int | None) -> Columns:
    return Columns("named", (1,), sentence=sentence)


def _edge(words: tuple[WrittenWord, ...], sentence: int | None) -> Columns:
    end = _find(words, "to") + 2
    if len(words) > end and words[end].text == ".":
        end += 2
    return Columns("edge", (1, end) if end < len(words) else (1,))


def _plain(words: tuple[WrittenWord, ...], sentence: int | None) -> Columns:
    return Columns(sentence=sentence)


def _find(words: tuple[WrittenWord, ...], *texts: str) -> int:
    """The number of the first of these words after a line's name."""
    return next((k for k, word in enumerate(words) if k and word.text in texts), len(words))


def _booklet(words: tuple[WrittenWord, ...], sentence: int | None) -> Columns:
    """A step runs on, and a topic has a name more than a setting."""
    return Columns() if words[0].text in ("step", "about") else Columns("setting", (1,))


_RULES = {
    "pattern": _setting,
    "body": _body,
    "style": _style,
    "fabric": _style,
    "let": _definition,
    "solve": _solve,
    "input": _input,
    "points": _named,
    "outline": _edge,
    "lines": _edge,
    "darts": _named,
    "pleats": _named,
    "marks": _named,
    "corners": _named,
    "join": _named,
    "finished": _definition,
    "check": _plain,
    "notions": _named,
    "booklet": _booklet,
}
