"""Patterns read and planned for a test: one written inside it, or one in a file; and bodies to draft them for."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np

from draft.base.notes import Source
from draft.base.resources import folder
from draft.bodies.bodies import Bodies
from draft.fabrics.fabric import Fabric
from draft.language.reader import read
from draft.plan.library import Texts, read_texts
from draft.plan.make import plan_texts
from draft.plan.plan import Plan

PIECE = """
piece patch
    points
        near_end  at 0, 0
        far_end   at 10 cm, 0
        high_end  at 0, 10 cm
    outline
        low    near_end to far_end straight
        slant  far_end to high_end straight
        side   high_end to near_end straight
    cut 1
"""

Figures = float | Sequence[float]


def planned(text: str, styles: Mapping[str, str] | None = None) -> Plan:
    """The plan of a text; where it has no pattern or piece of its own it is given one."""
    written = textwrap.dedent(text)
    head = "" if written.lstrip().startswith("pattern") else 'pattern trial\n    title "Trial"\n'
    body = "" if "\npiece " in f"\n{written}" else PIECE
    main = read(Source("trial.piece", f"{head}\n{written}\n{body}"))
    return plan_texts(Texts(main, (), folder("pieces")), styles or {})


def make_plan(path: Path, styles: Mapping[str, str] | None = None, fabric: Fabric | None = None) -> Plan:
    """The plan of the pattern in a file."""
    return plan_texts(read_texts(path), styles or {}, fabric)


def people(**measures: Figures) -> Bodies:
    """Bodies with measures in cm; slopes in degrees."""
    values = {
        name: np.atleast_1d(np.radians(given) if name.endswith("slope") else np.multiply(given, 10.0)).astype(float)
        for name, given in measures.items()
    }
    count = max(len(column) for column in values.values())
    return Bodies(tuple(f"body {k + 1}" for k in range(count)), values)
