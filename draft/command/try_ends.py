"""The verb about the limits of a pattern: every style tried at both of its ends."""

from __future__ import annotations

from pathlib import Path

from draft.command.console import print_notes, print_text, progress, stop_on_errors, write
from draft.command.group import commands
from draft.command.options import FABRIC, PATTERN, chart, out, style, styles_of
from draft.command.told_as_data import AS_JSON, tell
from draft.drafting.request import Request, Whom


@commands.command("try")
@PATTERN
@chart("Another size chart than the pattern's own.")
@FABRIC
@style("Hold a style to this while the others are tried; may be repeated.")
@out("Write a table of all faults, the worst of each drawn, and every style at its ends in outline.")
@AS_JSON
def try_styles(
    pattern: str, chart: Path | None, fabric: str | None, styles: tuple[str, ...], folder: Path | None
) -> None:
    """Try every style at both ends, alone and by two, for all sizes and other figures; exit with 1 if any fails.

    Alone each is tried for all sizes of the chart, and for its middle size with fuller or slimmer waist, hips and
    bust, longer or shorter, with other arms and shoulders, as people are; by two for the smallest, the middle and the
    largest size.
    """
    from draft.answers.limits_tried import limits_files, limits_notes, limits_report
    from draft.answers.tried_data import limits_data
    from draft.trying.limits import try_limits

    say = progress()
    limits = try_limits(Request(pattern, Whom(chart=chart), styles_of(styles), fabric), say)
    say("")
    print_text(limits_report(limits))
    tell(lambda: limits_data(limits))
    notes = limits_notes(limits)
    print_notes(notes)
    if folder:
        write(folder, limits_files(limits))
    stop_on_errors(notes)
