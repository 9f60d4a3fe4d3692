"""What can be measured, said of a figure, and chosen of a pattern; and what is on the shelf: as data."""

from __future__ import annotations

from collections.abc import Sequence

from draft.answers.on_the_shelf import OnShelf
from draft.base.as_data import Data, of_kind
from draft.base.units import Kind
from draft.bodies.measures import MEASURES, BodyMeasure
from draft.bodies.own_measure import OwnMeasure
from draft.bodies.said import known_sayings
from draft.bodies.sayings import THIRD, Move, Saying
from draft.garment.garment import CutOf
from draft.language import tree
from draft.plan.plan import Plan, Value


def measures_data(name: str | None = None) -> Data:
    """All body measures, or one."""
    return {"measures": [_measure(one) for key, one in MEASURES.items() if name in (None, key)]}


def _measure(one: BodyMeasure) -> Data:
    ends = of_kind("least", one.low, one.kind) | of_kind("most", one.high, one.kind)
    return {
        "measure": one.name,
        **ends,
        "how": one.how,
        "iso_8559_1_clause": one.clause or None,
        "example": one.example,
    }


def figures_data() -> Data:
    """What can be said of a figure, and what it moves by how much."""
    rows = [
        {
            "figure": one.words,
            "seen": one.seen,
            "moves": [{"measure": move.measure, **_moved(one, move)} for move in one.moves],
            "from": one.source,
        }
        for one in known_sayings()
    ]
    return {"figures": rows}


def _moved(saying: Saying, move: Move) -> Data:
    by = move.sd * (1.0 if saying.group == "cup" else THIRD[0])
    is_angle = MEASURES[move.measure].kind is Kind.ANGLE
    return {"by_deg": round(by, 2)} if is_angle else {"by_mm": round(10 * by, 1)}


def about_data(plan: Plan) -> Data:
    """The measures that a pattern needs, the cloth that suits it, its styles, charts and pieces."""
    return {
        "pattern": plan.title,
        "maker": plan.maker or None,
        "version": plan.version or None,
        "wearers": plan.wearers.name,
        "measures": [_needed(plan, name) for name in plan.measures],
        "cloths": [{"cloth": one.name, "words": one.words} for one in plan.cloths],
        "cloth_properties": [
            {"property": one.name, "set_to": one.set_to, "suits": one.limits, "words": one.words}
            for one in plan.properties
        ],
        "styles": [
            {
                "style": one.name,
                "set_to": one.set_to,
                "limits": one.limits,
                "ends": list(one.ends),
                "is_choice": one.is_choice,
                "words": one.words,
            }
            for one in plan.styles
        ],
        "charts": [{"chart": name, "words": words} for name, words in plan.charts],
        "pieces": [
            {"piece": one.name, "title": one.title, "on_fold": one.on_fold, "cut": [_cut(cut) for cut in one.all_cuts]}
            for one in plan.pieces
        ],
    }


def _needed(plan: Plan, name: str) -> Data:
    measure = plan.known[name]
    own = measure.words if isinstance(measure, OwnMeasure) else None
    return {"measure": name, "how": measure.how, "about": own or None}


def _cut(cut: CutOf[Value]) -> Data:
    return {"count": cut.count, "cloth": cut.cloth or None, "layer": cut.layer or None, "as": cut.cut_as or None}


def templates_data(file: tree.File) -> Data:
    """The templates of a file and what each is given."""
    rows = [
        {
            "template": one.name,
            "words": one.words,
            "inputs": [
                {
                    "input": wanted.name,
                    "what": wanted.what,
                    "default": wanted.default.span.text if wanted.default else None,
                    "words": wanted.words,
                }
                for wanted in one.body.inputs
            ],
        }
        for one in file.templates
    ]
    return {"file": file.span.source.place_name, "templates": rows}


def shelf_data(shelf: Sequence[OnShelf]) -> Data:
    """The bundled patterns."""
    rows = [
        {
            "pattern": one.name,
            "title": one.title,
            "sizes": list(one.drafted.garment.sizes),
            "charts": [name for name, _ in one.drafted.plan.charts if name],
            "cloth": one.cloth,
            "garment": one.garment,
            "skill": one.skill,
        }
        for one in shelf
    ]
    return {"patterns": rows}
