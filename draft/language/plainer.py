"""Older ways to say a thing, said as one does now: `only for` as `when`, and a point no way from another as that one.

This changes how a text is written and never what it means; `tidy` holds it to that.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import fields, replace
from itertools import groupby, pairwise

from draft.base.record import dataclass
from draft.language import tree
from draft.language.going_on import BRANCHES
from draft.language.written import Line, WrittenRow, WrittenWord

Options = dict[str, frozenset[str]]
"""The options of each choice of the styles."""
_WAYS = frozenset({"up", "down", "across", "inward"})
_NOTHING = frozenset({"0", "0 cm", "0 mm", "0 in"})


def options_of(file: tree.File) -> Options:
    """The choices that a file declares, each with its options."""
    return {style.name: frozenset(style.options) for style in file.styles if isinstance(style, tree.StyleChoice)}


def plainer(lines: Sequence[Line], options: Options) -> list[Line]:
    """The lines of a text, those that are said in an older way said anew."""
    places = list(_places(lines))
    found: list[Line] = []
    before: _Only | None = None
    for only, run in groupby(places, key=lambda place: place.only):
        group = [place.line for place in run]
        if only is None:
            found += [_as_another(place.line) if place.in_points else place.line for place in _of(places, group)]
        else:
            otherwise = before is not None and before.leaves(only, options)
            found += _under(only, group, otherwise)
            only = None if otherwise else only  # one `otherwise` to a `when`
        before = only
    return found


@dataclass(frozen=True)
class _Only:
    """What a line is there for, by its `only for`, and how deep such lines stand."""

    style: str
    options: tuple[str, ...]
    level: int

    def leaves(self, other: _Only, options: Options) -> bool:
        """Whether another is there for all that this one is not."""
        rest = options.get(self.style, frozenset()) - set(self.options)
        return (self.style, self.level) == (other.style, other.level) and rest == set(other.options)


@dataclass(frozen=True)
class _Place:
    line: Line
    only: _Only | None
    in_points: bool


def _of(places: Iterable[_Place], lines: Sequence[Line]) -> Iterator[_Place]:
    wanted = {id(line) for line in lines}
    return (place for place in places if id(place.line) in wanted)


def _places(lines: Sequence[Line]) -> Iterator[_Place]:
    """Each line with what it is there for, and whether it is a point."""
    above: list[Line] = []
    for k, line in enumerate(lines):
        above = [upper for upper in above if upper.level < line.level]
        blocks = [upper for upper in above if upper.words and upper.words[0].text not in BRANCHES]
        holds = k + 1 < len(lines) and lines[k + 1].level > line.level
        only = None if holds or not line.words else _only(line)
        yield _Place(line, only, bool(blocks) and blocks[-1].words[0].text == "points")
        above.append(line)


def _only(line: Line) -> _Only | None:
    words = [word.text for word in line.words]
    at = _stands_at(words)
    return None if at is None else _Only(words[at + 2], tuple(words[at + 3 : _ends_at(words, at) : 2]), line.level)


def _stands_at(words: Sequence[str]) -> int | None:
    """The number of the word with which `only for` begins; None where it stands for a whole piece, or nowhere."""
    pairs = pairwise(words)
    return next((k for k, pair in enumerate(pairs) if k and pair == ("only", "for")), None)


def _ends_at(words: Sequence[str], at: int) -> int:
    end = at + 4
    while words[end : end + 1] == ["or"]:
        end += 2
    return end


def _under(only: _Only, lines: Sequence[Line], otherwise: bool) -> list[Line]:
    """The lines under a `when`, or under the `otherwise` of the one before."""
    said = ["otherwise"] if otherwise else ["when", only.style, "is", *" or ".join(only.options).split()]
    first = lines[0]
    head = Line(
        only.level, (WrittenRow(tuple(WrittenWord("NAME", text, -1) for text in said)),), first.above, first.blank
    )
    inner = [replace(first, above=(), blank=False), *(_deeper(line) for line in lines[1:])]
    return [head, *(_less_only(replace(line, level=line.level + 1)) for line in inner)]


def _deeper(line: Line) -> Line:
    return replace(line, above=tuple(replace(remark, level=remark.level + 1) for remark in line.above))


def _less_only(line: Line) -> Line:
    words = [word.text for word in line.words]
    at = _stands_at(words)
    assert at is not None
    begin = at - 1 if words[at - 1] == "," else at
    gone = {id(word) for word in line.words[begin : _ends_at(words, at)]}
    rows = [replace(row, words=tuple(word for word in row.words if id(word) not in gone)) for row in line.rows]
    return replace(line, rows=tuple(row for row in rows if row.words or row.comment))


def _as_another(line: Line) -> Line:
    """`tip  from shoulder: 0 cm down` as `tip  is shoulder`."""
    words = line.words
    texts = [word.text for word in words]
    if len(line.rows) != 1 or texts[1:2] != ["from"] or len(texts) < 6 or texts[-3] != ":":
        return line
    if " ".join(texts[-2].split()) not in _NOTHING or texts[-1] not in _WAYS:
        return line
    kept = (words[0], replace(words[1], text="is"), *words[2:-3])
    return replace(line, rows=(replace(line.rows[0], words=kept),))


# ---- what a text means -----------------------------------------------------------------------------------------------


def meaning(node: object, options: Options) -> object:
    """What a tree says, the same however its branches and its points are written."""
    if isinstance(node, tuple):
        return tuple(meaning(part, options) for part in node)
    if not isinstance(node, tree.Node):
        return node
    plain = _plain(node)
    said = {
        f.name: getattr(plain, f.name) for f in fields(plain) if f.compare and f.name not in ("branches", "conditions")
    }
    branches = plain.branches if isinstance(plain, tree.Line) else ()
    asked = frozenset(_asked(branch, options) for branch in branches)
    return (type(plain).__name__, asked, *(meaning(value, options) for value in said.values()))


def _plain(node: tree.Node) -> tree.Node:
    if isinstance(node, tree.Call) and node.word == "from_point" and len(node.args) == 2:
        way = node.args[1]
        if isinstance(way, tree.Call) and len(way.args) == 2 and _is_nothing(way.args[0]):
            return replace(node, word="same_point", args=node.args[:1])
    return node


def _is_nothing(value: tree.Expr) -> bool:
    return isinstance(value, tree.Literal) and value.value == 0.0


def _asked(branch: tree.Branch, options: Options) -> object:
    """The options that one `when` leaves of a style, or the branch itself where it asks for several."""
    if len(branch.condition.parts) > 1:
        return branch
    part = branch.condition.parts[0]
    rest = options.get(part.style.text, frozenset()) - set(part.options)
    return part.style.text, frozenset(rest if part.negated == branch.holds else part.options)
