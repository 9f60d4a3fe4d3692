"""How a drafted garment sits on each body: a report, and a drawing of both, level by level."""

from __future__ import annotations

from draft.answers.as_measured import as_measured
from draft.answers.shape_followed import shape_report
from draft.answers.sides_said import sides_report
from draft.answers.stretch_reckoned import stretch_report
from draft.base.output_names import file_names
from draft.base.text_columns import in_columns
from draft.base.units import in_centimetres, in_inches
from draft.drafting.drafting import Drafted
from draft.fit.levels import closeness, levels, over
from draft.form import form_of
from draft.garment.garment import Garment
from draft.paper.drawing.svg import svg
from draft.paper.drawing.wording import Wording
from draft.paper.pictures.fit_drawing import IN_CM, fit_drawing

MOST = 8  # bodies side by side in a table; of a study a row each is written instead


def fit_report(garment: Garment, details: bool = False) -> str:
    """Ease at every level, and the least stretch that the cloth needs: with `details` everything that asks for some."""
    count = len(garment.sizes)
    body = _one(garment) if count == 1 else _several(garment)
    return f"{body}\n\n{stretch_report(garment, details)}"


def fit_files(drafted: Drafted, wording: Wording = IN_CM) -> dict[str, bytes]:
    """A drawing for each body on a form of it, by its place in a folder; in other languages than English without the
    sentences below it."""
    garment, form = drafted.garment, form_of(as_measured(drafted), drafted.plan.wearers)
    names = file_names(garment.sizes)
    followed: list[str] = []
    if wording.language == IN_CM.language:
        followed = [*shape_report(drafted).splitlines(), *sides_report(drafted).splitlines()]
    drawings = (fit_drawing(garment, form, k, followed, wording) for k in range(len(names)))
    return {f"fit/{name}.svg": svg(one).encode() for name, one in zip(names, drawings, strict=True)}


def _one(garment: Garment) -> str:
    rows = [(garment.sizes[0], "body", "garment", "flat", "ease", "ease", "")]
    for finished in levels(garment):
        body, mine = float(over(finished)[0]), float(finished.values[0])
        ease = mine - body
        figures = (in_centimetres(body), in_centimetres(mine), in_centimetres(mine / 2), in_centimetres(ease))
        rows.append((finished.title, *figures, in_inches(ease), closeness(ease, body)))
    return in_columns(rows)


def _several(garment: Garment) -> str:
    rows: list[tuple[str, ...]] = [("ease at", *garment.sizes[:MOST])]
    for finished in levels(garment):
        eases = finished.values - over(finished)
        rows.append((finished.title, *(in_centimetres(float(ease)) for ease in eases[:MOST])))
    return in_columns(rows)
