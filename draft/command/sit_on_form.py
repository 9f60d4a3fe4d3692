"""The verb about how a garment will sit: on a form of somebody's measures, before any cloth is cut."""

from __future__ import annotations

import math
from pathlib import Path
from typing import TYPE_CHECKING, Unpack

import click

from draft.base.units import Kind, QuantityError, read_quantity
from draft.command.console import print_notes, print_text, progress, stop_on_errors, write
from draft.command.drafted import print_estimates
from draft.command.group import commands
from draft.command.options import OUT, Given, all_of, drafting_options_of, request_of, styles_of
from draft.command.told_as_data import AS_JSON, tell
from draft.drafting.request import Whom, sizes_in

if TYPE_CHECKING:
    from draft.answers.sit_cases import Otherwise
    from draft.paper.drawing.spoken_languages import Units
    from draft.paper.drawing.wording import Wording

LOWEST, HIGHEST, MOST_BENT = 85.0, -80.0, 90.0


class SitGiven(Given):
    """For whom, in what and how it is looked at, as it was typed."""

    arms: str
    elbows: str
    try_on: str | None
    ends: bool
    beside: str | None
    beside_styles: tuple[str, ...]
    beside_fabric: str | None
    quick: bool
    units: Units | None
    language: str


sit_options = all_of(
    drafting_options_of(click.argument("pattern", required=False, default="")),
    click.option("--arms", default="50deg", show_default=True, metavar="ANGLE",
                 help="Arms so far below level: from 85deg, hanging, to -80deg, raised."),
    click.option("--try-on", metavar="M,L", help="Sizes of the chart on one person's form, beside her own draft."),
    click.option("--ends", is_flag=True, help="Each size also on fuller and slimmer bodies that it claims to serve."),
    click.option("--beside", metavar="PATTERN", help="Another version of the pattern beside it, such as one altered."),
    click.option("--beside-style", "beside_styles", multiple=True, metavar="NAME=VALUE",
                 help="The same in another style beside it; may be repeated."),
    click.option("--beside-fabric", metavar="FILE", help="The same of another cloth beside it."),
    click.option("--quick", is_flag=True, help="Faster, without the eight other forms that tell what to trust."),
    click.option("--elbows", default="0deg", metavar="ANGLE",
                 help="Elbows bent forward so far, for long sleeves: up to 90deg; else straight."),
    click.option("--units", type=click.Choice(["both", "in", "cm"]),
                 help="Lengths in inches, centimetres or both; else as is usual in the language."),
    click.option("--language", default="en", show_default=True, metavar="CODE", help="Language of printed words."),
)  # fmt: skip


@commands.command()
@sit_options
@OUT
@AS_JSON
def sit(folder: Path, **given: Unpack[SitGiven]) -> None:
    """Show how the garment will sit on a form of one person's measures, or of each size: tight, loose, hem, riding up.

    The pieces are sewn together and dressed on the form, some half a minute each, and drawn from three sides, with what
    is stretched, what stands off, and what is not to be trusted. Without PATTERN the form is drawn by itself.
    `plainseam sit marlpit --body me.toml --out look` is one to begin with.
    """
    from draft.paper.drawing.spoken_languages import own_words, usual_units
    from draft.paper.drawing.wording import Wording
    from draft.plan.library import find

    arms, elbow = arms_in(given["arms"]), elbows_in(given["elbows"])
    units = given["units"] or usual_units(given["language"])
    if not given["pattern"]:
        if elbow:
            raise click.UsageError("`--elbows` is about a garment's sleeves: name a pattern")
        _form(folder, given, arms, Wording(given["language"], units))
        return
    words = own_words(find(given["pattern"]), given["language"])
    _garment(folder, given, arms, elbow, Wording(given["language"], units, words))


def _form(folder: Path, given: SitGiven, arms: float, wording: Wording) -> None:
    """The form by itself."""
    from draft.answers.sit import form_files
    from draft.drafting.whom import the_person

    if not (given["body"] or given["answers"]):
        raise click.UsageError("say of which pattern, or whose form: `--body FILE` or `--measure NAME=VALUE`")
    if given["sizes"] or given["like"] or given["try_on"]:
        raise click.UsageError("sizes are those of a pattern: name it before the options")
    person = the_person(Whom(given["body"], answers=given["answers"], figure=given["figure"]), None)
    write(folder, form_files(person, arms, wording))
    print_text(wording.say("sit.not_you"))


def _garment(folder: Path, given: SitGiven, arms: float, elbow: float, wording: Wording) -> None:
    from draft.answers.in_her_words import in_her_words, without_places
    from draft.answers.sit import refusals, sat, sit_data, sit_files, sit_report
    from draft.answers.sit_cases import cases_of
    from draft.sitting.sitting_of import Asked

    request = request_of(given)
    if given["try_on"] and not request.whom.is_person:
        raise click.UsageError("`--try-on` puts sizes on one person: give `--body`, `--like` or `--measure` as well")
    if given["ends"] and request.whom.is_person:
        raise click.UsageError("`--ends` is about sizes of a chart: leave the person out")
    with in_her_words(request):
        cases, drafted = cases_of(request, wording, sizes_in(given["try_on"]) or (), _otherwise(given), given["ends"])
    print_notes(without_places(request, drafted.notes))
    stop_on_errors(drafted.notes)
    print_estimates(drafted.told_estimates, details=False)
    found = sat(cases, Asked(arms, spread=not given["quick"], elbow=elbow), progress())
    print_text(sit_report(found, wording))
    tell(lambda: sit_data(found, wording))
    refused = refusals(found, wording)
    if len(refused) < len(found):
        write(folder, sit_files(found, wording.titled(drafted.garment), wording, arms, elbow))
    stop_on_errors(refused)


def _otherwise(given: SitGiven) -> Otherwise:
    from draft.answers.sit_cases import Otherwise

    return Otherwise(given["beside"], styles_of(given["beside_styles"]), given["beside_fabric"])


def arms_in(text: str) -> float:
    """How far below level arms are held, rad. Raises UsageError for what is no angle or further than arms go."""
    angle = _angle(text, "--arms")
    if not HIGHEST - 1e-9 <= math.degrees(angle) <= LOWEST + 1e-9:
        reach = "arms are held from 85deg below level, hanging, to 80deg above it, `--arms -80deg`"
        raise click.UsageError(f"`--arms {text}`: {reach}")
    return float(angle)


def elbows_in(text: str) -> float:
    """How far elbows are bent, rad. Raises UsageError for what is no angle, or further than sleeves are followed."""
    angle = _angle(text, "--elbows")
    if not -1e-9 <= math.degrees(angle) <= MOST_BENT + 1e-9:
        raise click.UsageError(f"`--elbows {text}`: elbows are bent from 0deg to {MOST_BENT:g}deg")
    return max(angle, 0.0)


def _angle(text: str, option: str) -> float:
    bare = text.strip()
    sign = -1.0 if bare.startswith(("-", "−")) else 1.0
    try:
        found = read_quantity(bare.lstrip("-−+").strip())
    except QuantityError as reason:
        raise click.UsageError(f"`{option} {text}`: {reason}") from None
    if found.kind is not Kind.ANGLE:
        raise click.UsageError(f"`{option} {text}` is not an angle, as in `{option} 50deg`")
    return float(sign * found.value)
