"""From a request to a plan: the pattern's texts and the fabric are found and read, the styles set."""

from __future__ import annotations

from pathlib import Path

from draft.base.record import dataclass
from draft.drafting.request import Request
from draft.fabrics.fabric import Fabric, find_fabric, read_fabric
from draft.plan.library import Texts, chart_of, find, read_texts
from draft.plan.make import plan_texts
from draft.plan.plan import Plan


@dataclass(frozen=True)
class Planned:
    """A plan, with the request that it was made for and what was read for it."""

    request: Request
    texts: Texts
    fabric: Fabric | None
    plan: Plan

    @property
    def chart(self) -> Path | None:
        """The chart that the pattern names itself. Raises `Problems` if it is named and not there."""
        return chart_of(self.texts)


def texts_for(pattern: str) -> Texts:
    """The texts of a bundled pattern by its name, or of the file at a path. Raises `Problems` with their mistakes."""
    return read_texts(find(pattern))


def plan_for(request: Request, texts: Texts | None = None) -> Planned:
    """The plan of what is asked for; `texts` are the pattern's, where they are read already.

    Raises `Problems` for mistakes in the texts, in the fabric and in the styles.
    """
    texts = texts or texts_for(request.pattern)
    fabric = read_fabric(find_fabric(request.fabric)) if request.fabric else None
    return Planned(request, texts, fabric, plan_texts(texts, request.styles, fabric))
