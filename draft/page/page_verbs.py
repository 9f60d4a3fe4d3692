"""All that a browser may ask of a worker, by name."""

from __future__ import annotations

from draft.page.bench import Verb
from draft.page.designing import VERBS as DESIGNING
from draft.page.sewing import VERBS as SEWING

VERBS: dict[str, Verb] = {**SEWING, **DESIGNING}
