"""A long sleeve over a bent elbow is stretched behind it, where a straight one is not."""

from __future__ import annotations

import numpy as np
import pytest

from draft.drafting.checked import draft_and_check
from draft.drafting.request import Request, Whom
from draft.form.dress_form import form_of
from draft.sitting.dressing_on import dress_on
from draft.toile.dressed import Dressed
from draft.toile.sewing_up import sew


@pytest.mark.slow
def test_a_bent_elbow_stretches_the_sleeve_behind_it() -> None:
    drafted = draft_and_check(Request("marlpit", Whom(sizes=("M",)), {"sleeve": "long"}))
    form = form_of(drafted.bodies)
    assert form is not None
    sewn = sew(drafted.garment, 0, 28.0)
    most = []
    for elbow in (0.0, np.radians(60.0)):
        found = dress_on(sewn, form, 0, (0.4, 0.2), float(np.radians(50.0)), ("down",), elbow=float(elbow))
        assert isinstance(found, Dressed), found
        state = found.states["down"]
        at = state.positions[sewn.merged[sewn.triangles]].mean(axis=1)
        forearm = (np.abs(at[:, 0]) > 300.0) & (sewn.layers < 1.5)
        most.append(float(np.quantile(np.maximum(state.across, state.along)[forearm], 0.97)))
    assert most[1] > most[0] + 0.03
