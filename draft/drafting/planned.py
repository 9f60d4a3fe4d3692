"""From a request to a plan: the pattern's texts and the fabric are found and read, the styles set."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from draft.base.disk import is_there
from draft.base.naming import and_list
from draft.base.notes import Problems, error, nearest
from draft.base.plainly import sentence
from draft.base.record import dataclass
from draft.drafting.request import Request
from draft.drafting.under_studio import under_studio
from draft.fabrics.fabric import Fabric, find_fabric, read_fabric
from draft.plan.library import Texts, chart_of, charts_of, find, read_texts
from draft.plan.make import plan_texts
from draft.plan.plan import Plan
from draft.studio.studio import Studio
from draft.studio.studio_file import studio_beside


@dataclass(frozen=True)
class Planned:
    """A plan, with the request that it was made for and what was read for it."""

    request: Request
    texts: Texts
    fabric: Fabric | None
    plan: Plan
    studio: Studio | None = None
    """That of the folder that the pattern lies in."""

    @property
    def chart(self) -> Path | None:
        """The chart that the pattern names itself. Raises `Problems` if it is named and not there."""
        return chart_of(self.texts)

    @property
    def charts(self) -> dict[str, Path]:
        """All of its charts by their names, the usual one first. Raises `Problems` if one is named and not there."""
        return charts_of(self.texts)


def texts_for(pattern: str) -> Texts:
    """The texts of a bundled pattern by its name, or of the file at a path. Raises `Problems` with their mistakes."""
    return read_texts(find(pattern))


def plan_for(request: Request, texts: Texts | None = None) -> Planned:
    """The plan of what is asked for; `texts` are the pattern's, where they are read already.

    Raises `Problems` for mistakes in the texts, in the fabric, in the styles and in what the studio says.
    """
    texts = texts or texts_for(request.pattern)
    fabric = read_fabric(find_fabric(request.fabric)) if request.fabric else None
    studio = studio_beside(texts.beside)
    plan = under_studio(plan_texts(texts, request.styles, fabric), texts, studio)
    named = _chart_named(request, texts)
    if named is None:
        return Planned(request, texts, fabric, plan, studio)
    title = plan.title if named == next(iter(charts_of(texts))) else f"{plan.title}, {named.replace('_', ' ')}"
    whom = replace(request.whom, chart=charts_of(texts)[named])
    return Planned(replace(request, whom=whom), texts, fabric, replace(plan, title=title), studio)


def _chart_named(request: Request, texts: Texts) -> str | None:
    """The name of the pattern's own chart that is asked for; None where none is, or a file."""
    asked = request.whom.chart
    if asked is None or not asked.name or asked.suffix or asked.parent != Path():
        return None
    charts = charts_of(texts)
    if len(charts) < 2 or asked.name in charts:
        return asked.name if asked.name in charts else None
    own = next(iter(charts.values()))
    if is_there(asked) or is_there(own.with_name(f"{asked.name}.csv")):
        return None
    names = [name for name in charts if name]
    hint = nearest(asked.name, names) or (f"this pattern has {and_list(names)}, and the usual one without `--chart`",)
    raise Problems([error(f"there is no size chart `{asked}`", None, *hint, plainly=sentence("no_such_chart"))])
