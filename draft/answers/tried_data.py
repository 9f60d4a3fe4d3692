"""Limits tried, two drafts compared, and many bodies studied, as data."""

from __future__ import annotations

from draft.answers.compare import Compared
from draft.answers.study import Tally
from draft.base.as_data import Data, by_size, mm, note_data
from draft.garment.changes import SAME
from draft.trying.causes import Case, Cause
from draft.trying.limits import Limits
from draft.trying.settings import Setting


def limits_data(limits: Limits) -> Data:
    """What was tried, and each cause of a fault with its settings and bodies."""
    return {
        "pattern": limits.title,
        "styles": [offer.name for offer in limits.offers],
        "bodies": list(limits.bodies.names),
        "bodies_of_pairs": list(limits.ends.names),
        "settings_alone": 1 + len(limits.settings.alone),
        "settings_of_pairs": len(limits.settings.pairs),
        "each_pair_tried": not limits.settings.covering,
        "causes": [_cause(cause) for cause in limits.causes],
    }


def _cause(cause: Cause) -> Data:
    return {
        "fails": cause.is_error,
        "fact": cause.fact,
        "found_by": cause.found_by,
        "settings": [_setting(one) for one in cause.settings],
        "comes_with": [_setting(one) for one in cause.least],
        "bodies": list(cause.bodies),
        "worst": _case(cause.worst) if cause.worst else None,
        "note": note_data(cause.note),
    }


def _case(case: Case) -> Data:
    return {"setting": _setting(case.setting), "body": case.body or None}


def _setting(setting: Setting) -> dict[str, str]:
    return dict(setting)


def compare_data(found: Compared) -> Data:
    """Every edge that has moved or changed its length, and what only one draft has."""
    changes, sizes = found.changes, found.new.sizes
    return {
        "old": {"what": found.names[0], "for": list(found.old.sizes)},
        "new": {"what": found.names[1], "for": list(sizes)},
        "within_mm": SAME,
        "edges": len(changes.edges),
        "changed": [
            {
                "piece": edge.piece,
                "edge": edge.edge,
                "moves_mm": by_size(sizes, edge.moved),
                "was_mm": by_size(sizes, edge.before),
                "is_mm": by_size(sizes, edge.after),
                "longer_by_mm": by_size(sizes, edge.longer),
            }
            for edge in changes.changed
        ],
        "new_pieces": list(changes.new_pieces),
        "missing_pieces": list(changes.missing_pieces),
        "new_edges": list(changes.new_edges),
        "missing_edges": list(changes.missing_edges),
        "drafted_elsewhere": [
            {
                "piece": name,
                "by_mm": {size: mm((x * x + y * y) ** 0.5) for size, (x, y) in zip(sizes, way, strict=True)},
            }
            for name, way in changes.elsewhere
        ],
    }


def study_data(tally: Tally) -> Data:
    """How many bodies were drafted, can wear it and are served, by which sizes; and why not."""
    return {
        "bodies": tally.bodies,
        "drafted": tally.drafted,
        "worn": tally.worn,
        "served": tally.served,
        "near_a_size": tally.near,
        "sizes": dict(tally.sizes),
        "reasons": dict(tally.reasons),
        "estimated": dict(tally.estimated),
    }
