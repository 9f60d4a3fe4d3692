"""What can be said of a figure in place of a tape: a table, and a drawing of each."""

from __future__ import annotations

from draft.base.text_columns import in_columns
from draft.base.units import Kind
from draft.bodies.measures import MEASURES
from draft.bodies.said import known_sayings
from draft.bodies.sayings import THIRD, Move, Saying
from draft.paper.drawing.svg import svg
from draft.paper.pictures.figure_drawing import figure_drawing

_HOW = """say them where one person is drafted for, as in `--figure "sloping shoulders, bust D, very sway back"`,
or in her file of measures: figure = "sloping shoulders, bust D"; what was measured wins over words
`very` in front of one but a bust: among ten such people, and not among three, the most so"""


def figures_report() -> str:
    """Every saying, what is seen, which measures it moves and by how much, and where that is from."""
    rows = [(one.words, one.seen, ", ".join(_moved(one, move) for move in one.moves)) for one in known_sayings()]
    sources = list(dict.fromkeys(one.source for one in known_sayings()))
    found = "\n".join(f"  {source}" for source in sources)
    return f"{in_columns([('figure', 'what is seen', 'moves'), *rows])}\n\n{_HOW}\n\nthe figures are from\n{found}"


def figure_files() -> dict[str, bytes]:
    """A drawing for every saying, by its place in a folder."""
    return {f"{one.words.replace(' ', '_')}.svg": svg(figure_drawing(one)).encode() for one in known_sayings()}


def _moved(saying: Saying, move: Move) -> str:
    by = move.sd * (1.0 if saying.group == "cup" else THIRD[0])
    unit = "deg" if MEASURES[move.measure].kind is Kind.ANGLE else "cm"
    return f"{move.measure} {by:+.2g} {unit}"
