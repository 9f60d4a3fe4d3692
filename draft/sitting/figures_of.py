"""All figures of how a garment sits as rows and as plain data, for a spreadsheet or a program."""

from __future__ import annotations

from collections.abc import Iterator

from draft.sitting.reading import Reading

Row = tuple[str, str, float, str, float | None]
"""What is read, where, how much, in which unit, and give or take so much (None where that is not known)."""
HEAD = ("what", "where", "value", "unit", "give or take")


def rows_of(reading: Reading) -> Iterator[Row]:
    """The figures of a reading, in centimetres and per cent."""
    for level in reading.levels:
        off = _percent(level.spread)
        yield "height from the nape", level.name, _cm(level.height), "cm", None
        yield "stretched", level.name, _percent(level.stretched), "%", off
        yield "stretched in front", level.name, _percent(level.front), "%", off
        yield "stretched behind", level.name, _percent(level.back), "%", off
        yield "the cloth gives", level.name, _percent(level.gives), "%", None
        if level.room is not None:
            yield "room", level.name, _cm(level.room), "cm", None
    hem = reading.hem
    yield "hem higher than at the back", "front", _cm(hem.front), "cm", _cm(hem.front_spread)
    yield "hem higher than at the back", "side", _cm(hem.side), "cm", _cm(hem.side_spread)
    if reading.stays is not None and reading.rides is not None:
        yield "rises with friction", "hem", _cm(reading.stays), "cm", None
        yield "rises at most", "hem", _cm(reading.rides), "cm", None
    if reading.reaches is not None:
        yield "rises with raised arms at most", "hem", _cm(reading.reaches), "cm", None
    if reading.over_elbow is not None:
        yield "stretched", "bent elbow", _percent(reading.over_elbow), "%", None
    if reading.hollow is not None:
        yield "stands off", reading.hollow[0], _cm(reading.hollow[1]), "cm", None
    yield "not to be trusted", "of the cloth", _percent(reading.doubtful), "%", None


def plain_of(reading: Reading) -> dict[str, object]:
    """The same as plain data, with what was estimated, what lies outside of the surveyed and what is left out."""
    names = [name.replace(" ", "_") for name in HEAD]
    figures = [dict(zip(names, row, strict=True)) for row in rows_of(reading)]
    return {
        "figures": figures,
        "estimated": list(reading.estimated),
        "outside_of_the_surveyed": {name: _cm(value) for name, value in reading.outside.items()},
        "left_out": list(reading.left_out),
        "cautions": [caution.key for caution in reading.cautions],
    }


def _cm(mm: float) -> float:
    return round(mm / 10, 1)


def _percent(share: float) -> float:
    return round(100 * share, 1)
