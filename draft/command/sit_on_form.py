"""The verb about how a garment will sit: on a form of somebody's measures, before any cloth is cut."""

from __future__ import annotations

import math
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict, Unpack

import click

from draft.base.units import Kind, QuantityError, read_quantity
from draft.command.console import print_text, write
from draft.command.group import commands
from draft.command.options import OUT, PLACE, all_of
from draft.drafting.request import Whom

if TYPE_CHECKING:
    from draft.paper.drawing.wording import Units

LOWEST, HIGHEST = 85.0, -80.0


class SitGiven(TypedDict):
    """For whom, and how it is looked at, as it was typed."""

    body: Path | None
    answers: tuple[str, ...]
    arms: str
    units: Units | None
    language: str


sit_options = all_of(
    click.option("--body", type=PLACE, metavar="FILE", help="One person's measures in TOML."),
    click.option("--measure", "answers", multiple=True, metavar="NAME=VALUE", help="One person's measure; repeat it."),
    click.option("--arms", default="50deg", show_default=True, metavar="ANGLE",
                 help="Arms so far below level: from 85deg, hanging, to -80deg, raised."),
    click.option("--units", type=click.Choice(["both", "in", "cm"]),
                 help="Lengths in inches, centimetres or both; else as is usual in the language."),
    click.option("--language", default="en", show_default=True, metavar="CODE", help="Language of printed words."),
)  # fmt: skip


@commands.command()
@sit_options
@OUT
def sit(folder: Path, **given: Unpack[SitGiven]) -> None:
    """Draw a form of one person's measures from three sides, with what the tape reads at its levels."""
    from draft.answers.sit import form_files
    from draft.drafting.whom import the_person
    from draft.paper.drawing.wording import Wording, usual_units

    arms = arms_in(given["arms"])
    wording = Wording(given["language"], given["units"] or usual_units(given["language"]))
    if not (given["body"] or given["answers"]):
        raise click.UsageError("say whose form: `--body FILE` or `--measure NAME=VALUE`")
    person = the_person(Whom(given["body"], answers=given["answers"]), None)
    write(folder, form_files(person, arms, wording))
    print_text(wording.say("sit.not_you"))


def arms_in(text: str) -> float:
    """How far below level arms are held, rad. Raises UsageError for what is no angle or further than arms go."""
    bare = text.strip()
    sign = -1.0 if bare.startswith(("-", "−")) else 1.0
    try:
        found = read_quantity(bare.lstrip("-−+").strip())
    except QuantityError as reason:
        raise click.UsageError(f"`--arms {text}`: {reason}") from None
    if found.kind is not Kind.ANGLE:
        raise click.UsageError(f"`--arms {text}` is not an angle, as in `--arms 50deg`")
    angle = sign * found.value
    if not HIGHEST - 1e-9 <= math.degrees(angle) <= LOWEST + 1e-9:
        raise click.UsageError(
            f"`--arms {text}`: arms are held from 85deg below level, hanging, to 80deg above it, `--arms -80deg`"
        )
    return float(angle)
