"""A pattern drafted for whom it is asked for, and looked at by every check: what the command and the page call."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from draft import checks
from draft.base.notes import Problems, error
from draft.drafting.drafting import Drafted, draft_plan
from draft.drafting.whom import Whom, find_bodies
from draft.fabrics.fabric import Fabric, find_fabric, read_fabric
from draft.plan.library import chart_of, find, read_texts
from draft.plan.make import plan_texts
from draft.seams.shrinkage import before_washing, shrinkage_notes


def draft_and_check(
    pattern: str,
    *,
    body: Path | None = None,
    chart: Path | None = None,
    sizes: Sequence[str] | None = None,
    like: str | None = None,
    answers: Sequence[str] = (),
    styles: Mapping[str, str] | None = None,
    fabric: str | None = None,
    unwashed: bool = False,
    whole: bool = False,
) -> Drafted:
    """Draft a bundled pattern by name, or the file at a path, for one person or for sizes of a chart.

    `fabric` is the name of a bundled fabric or a path; `unwashed` pieces are larger by what washing takes from it;
    `whole` asks for every seam of the garment. For the others see `Whom`. Raises `Problems` for mistakes in the texts;
    faults of the drawing are among the notes of the result.
    """
    texts = read_texts(find(pattern))
    cloth = read_fabric(find_fabric(fabric)) if fabric else None
    plan = plan_texts(texts, styles or {}, cloth)
    whom = Whom(body, chart, sizes, like, answers)
    bodies, estimates = find_bodies(whom, chart_of(texts), plan.measures)
    drafted = replace(draft_plan(plan, bodies), estimates=estimates)
    drawn = drafted.outcome.drafted
    if not drawn.all():
        return drafted  # the lines of a body that failed mean nothing, and checking them would only add to the noise
    if unwashed:
        drafted = _unwashed(drafted, cloth)
    used = (*checks.CHECKS, *(() if whom.is_person else checks.CHART_CHECKS), *(checks.WHOLE_CHECKS if whole else ()))
    return replace(drafted, notes=(*drafted.notes, *checks.run(drafted.garment, used)))


def _unwashed(drafted: Drafted, cloth: Fabric | None) -> Drafted:
    if cloth is None or not cloth.shrinks:
        fix = 'give its shrinkage in a file, such as `shrinkage_down = "5 %"`, with `--fabric FILE`'
        raise Problems([error("nothing is known of what washing takes from this cloth", None, fix)])
    across, down = cloth.get("shrinkage_across"), cloth.get("shrinkage_down")
    garment = replace(drafted.garment, title=f"{drafted.garment.title}, for unwashed cloth")
    notes = (*drafted.notes, *shrinkage_notes(drafted.garment, across, down))
    return replace(drafted, unwashed=before_washing(garment, across, down), notes=notes)
