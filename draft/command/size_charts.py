"""The verb about size charts."""

from __future__ import annotations

from pathlib import Path

import click

from draft.command.console import print_text, write
from draft.command.group import commands
from draft.command.options import length_in, out
from draft.command.told_as_data import AS_JSON, tell
from draft.drafting.request import sizes_in


@commands.command()
@click.argument("chart", metavar="CHART", required=False)
@click.option("--chart", "named", metavar="NAME", help="Of a pattern with several charts, one by its name.")
@click.option("--people", metavar="WHOM", help="women, men, or a table of bodies as for `study`.")
@click.option("--propose", metavar="SIZES", help="Make a chart of sizes of these names, as in XS,S,M,L,XL.")
@click.option("--within", default="6 cm", metavar="LENGTH", help="With --propose: how far off a size still serves.")
@click.option("--bust", metavar="FROM,TO", help="With --propose: the bust of the first and the last size.")
@click.option("--stature", metavar="FROM,TO", help="Only people so tall, as for petite sizes.")
@out("Write the proposed chart there.")
@AS_JSON
def chart(
    chart: str | None,
    named: str | None,
    people: str | None,
    propose: str | None,
    within: str,
    bust: str | None,
    stature: str | None,
    folder: Path | None,
) -> None:
    """Say whom the sizes of a chart serve, or propose a chart for some people.

    CHART is a CSV file, or a pattern whose chart is meant: of several the usual one, or that of `--chart`.
    """
    from draft.answers.chart_data import chart_data, charts_data, proposed_data
    from draft.answers.people_of_charts import (
        chart_called,
        chart_report,
        charts_report,
        people_called,
        proposed_chart,
    )

    if named and chart is None:
        raise click.UsageError("`--chart` is one of a pattern's charts: name the pattern before it")
    if (chart is None) == (propose is None):
        raise click.UsageError("give a CHART to look at, or `--propose` and the names of sizes")
    statures = _two_lengths("--stature", stature)
    if chart is not None:
        called = chart_called(chart, named)
        looked_at = people_called(people or called.wearers, statures)
        print_text(chart_report(called.sizes, called.name, looked_at))
        tell(lambda: chart_data(called.sizes, called.name, looked_at))
        if not named and (told := charts_report(called, looked_at)):
            print_text(f"\n{told}")
            tell(lambda: charts_data(called, looked_at))
        return
    whom = people_called(people or "women", statures)
    ends = _two_lengths("--bust", bust)
    near = length_in(within, "--within", "6cm")
    found = proposed_chart(sizes_in(propose) or (), whom, near, ends)
    print_text(found.said)
    tell(lambda: proposed_data(found, whom, near))
    if folder:
        write(folder, found.files)


def _two_lengths(option: str, text: str | None) -> tuple[float, float] | None:
    """Two lengths, mm, parted by a comma, the first the smaller; None for no text."""
    if text is None:
        return None
    low, comma, high = text.partition(",")
    found = length_in(low, option, "78cm"), length_in(high if comma else low, option, "78cm")
    if found[0] >= found[1]:
        raise click.UsageError(f"`{option} {text}` goes from a smaller length to a larger, as in `{option} 78cm,137cm`")
    return found
