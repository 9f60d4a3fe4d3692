"""The bodies of a draft as far as they were measured: a form tells what of it is estimated."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.bodies.bodies import Bodies
from draft.drafting.drafting import Drafted


def as_measured(drafted: Drafted) -> Bodies:
    """The bodies without what was estimated and not described in words."""
    values = dict(drafted.bodies.values)
    values |= {one.name: np.where(one.where, np.nan, values[one.name]) for one in drafted.estimates if not one.said}
    return replace(drafted.bodies, values=values)
