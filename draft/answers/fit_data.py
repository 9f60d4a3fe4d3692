"""How a garment sits, as data: the same records that the reports of `fit` and `size` are made of."""

from __future__ import annotations

from draft.answers.size import Sized
from draft.answers.stretch_reckoned import WAYS
from draft.answers.unsure import doubt_sentences
from draft.base.as_data import Data, by_size, mm, percent_of
from draft.base.worst import worst_of
from draft.fit.levels import closeness, levels, over
from draft.fit.sentences import between, fit_sentence, how_to_grade
from draft.fit.stretch import FURTHEST, least, needed_stretches
from draft.garment.garment import Finished, Garment


def fit_data(garment: Garment) -> Data:
    """Ease at every level for each body, and the stretch that the cloth must have; of one body also its girths."""
    return {"levels": [_sits(garment, finished) for finished in levels(garment)], "stretch": _stretch(garment)}


def _sits(garment: Garment, finished: Finished) -> Data:
    body, mine = over(finished), finished.values
    row: Data = {"level": finished.name, "title": finished.title, "ease_mm": by_size(garment.sizes, mine - body)}
    if len(garment.sizes) == 1:
        row |= {"body_mm": by_size(garment.sizes, body), "garment_mm": by_size(garment.sizes, mine)}
        row["sits"] = closeness(float(mine[0] - body[0]), float(body[0]))
    return row


def _stretch(garment: Garment) -> list[Data]:
    found = needed_stretches(garment)
    rows: list[Data] = []
    for way, asked in zip(WAYS, least(garment, found), strict=True):
        worst = worst_of(asked.share)
        share = float(asked.share[worst])
        row: Data = {"way": way, "needed_percent": percent_of(max(share, 0.0)), "more_than_any_cloth": False}
        if share > 0:
            need = found[int(asked.asking[worst])]
            row |= {
                "more_than_any_cloth": share >= FURTHEST,
                "why": need.why,
                "reason": need.reason,
                "of": garment.sizes[worst],
                "from_mm": mm(need.own[worst]),
                "to_mm": mm(need.asked[worst]),
                "more_percent": percent_of(need.share[worst]),
            }
        rows.append(row)
    return rows


def size_data(sized: Sized) -> Data:
    """The size to cut, the ease in it and its neighbours, what is in doubt, and the other charts of the pattern."""
    names, fit = sized.sizes.garment.sizes, sized.by_sure
    doubt = doubt_sentences(sized.unsure, sized.fit, names)
    said = [fit_sentence(fit, names, where="there" if doubt else "all over"), *doubt, how_to_grade(fit, names)]
    said += [] if doubt else [between(fit, names)]
    return {
        "pattern": sized.person.plan.title,
        "for": list(sized.person.garment.sizes[:1]),
        "size": sized.cut or None,
        "chart": sized.chart,
        "other_charts": [{"chart": name, "size": size or None} for name, size, _ in sized.others],
        "levels": [_level(sized, k) for k in range(len(list(levels(sized.person.garment))))],
        "sentences": [line for line in said if line],
    }


def _level(sized: Sized, level: int) -> Data:
    finished = list(levels(sized.person.garment))[level]
    row: Data = {"level": finished.name, "title": finished.title, "known": level in sized.unsure.sure}
    if not row["known"]:
        return row
    body, names = float(over(finished)[0]), sized.sizes.garment.sizes
    eases = {names[k]: mm(sized.fit.ease[0, k, level]) for k in sized.shown}
    return row | {"body_mm": mm(body), "ease_mm": eases, "intended_ease_mm": mm(float(finished.values[0]) - body)}
