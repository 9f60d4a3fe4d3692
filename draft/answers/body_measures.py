"""What the command says about body measures: how each is taken, its limits, its drawing."""

from __future__ import annotations

from draft.base.notes import Problems
from draft.base.text_columns import in_columns
from draft.base.units import Kind, in_centimetres, in_inches, in_words
from draft.bodies.measures import MEASURES, BodyMeasure, unknown_measure
from draft.paper.drawing.svg import svg
from draft.paper.pictures.tape import tape_drawing


def measures_report() -> str:
    """Every measure with its limits and how it is taken."""
    rows = [(m.name, _limits(m), m.how) for m in MEASURES.values()]
    return in_columns([("measure", "plausible", "how to take it"), *rows])


def measure_report(name: str) -> str:
    """One measure in full. Raises `Problems` for a word that is no measure."""
    if name not in MEASURES:
        raise Problems([unknown_measure(name)])
    measure = MEASURES[name]
    clause = f"ISO 8559-1:2017, {measure.clause}" if measure.clause else "a term of the trade"
    inches = f"; {in_inches(measure.low)} to {in_inches(measure.high)}" if measure.kind is Kind.LENGTH else ""
    lines = [
        f"{measure.name} ({clause})",
        f"  {measure.how}",
        f"  plausible: {_limits(measure)}{inches}",
        f'  in a file of measures: {measure.name} = "{measure.example}"',
    ]
    return "\n".join(lines)


def measure_files() -> dict[str, bytes]:
    """A drawing for every measure, by its place in a folder."""
    return {f"{name}.svg": svg(tape_drawing(name)).encode() for name in MEASURES}


def _limits(measure: BodyMeasure) -> str:
    if measure.kind is Kind.LENGTH:
        return f"{in_centimetres(measure.low)} to {in_centimetres(measure.high)}"
    return f"{in_words(measure.low, measure.kind)} to {in_words(measure.high, measure.kind)}"
