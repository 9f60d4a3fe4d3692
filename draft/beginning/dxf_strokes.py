"""A DXF drawing as strokes, read by the library ezdxf, in a process of its own, as a few lines can stand for millions.

Blocks are taken apart, each with what it is called; arcs and bulges are cubics that stray from them by less than
1e-8 of their radius. Of pieces exchanged after ASTM D6673 (from memory) the words `Piece Name: ...` and
`Units: METRIC` are understood.
"""

from __future__ import annotations

import io
import logging
from collections import Counter
from collections.abc import Iterator
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.beginning.strokes import Drawn, Stroke, Words, refused, said
from draft.geometry.cubic import line

_LINES = ("LINE", "ARC", "CIRCLE", "ELLIPSE", "SPLINE", "LWPOLYLINE", "POLYLINE")
_WORDS = ("TEXT", "MTEXT", "ATTRIB")
_SILENT = ("POINT", "VIEWPORT", "ATTDEF")
_MOST = 200_000
_MOST_ROWS = 1_000
_MM = {1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0, 10: 914.4, 14: 100.0}
"""mm of a unit by its number in `$INSUNITS`: inches, feet, mm, cm, m, yards, dm."""
_ROUND = 16
"""Cubics of a whole turn."""
_SPLINE = 4
"""How often a spline that is no row of cubics is halved."""
_UNITS = "units:"


def dxf_strokes(data: bytes) -> bytes:
    """A drawing as `strokes.said` writes it, or why it cannot be read."""
    try:
        return said(read_dxf(data))
    except ImportError:
        return refused("is read with the library ezdxf, which is not installed")
    except ValueError as reason:
        return refused(str(reason))


def read_dxf(data: bytes) -> Drawn:
    """A drawing, y up. Raises ValueError for one that cannot be read, ImportError where the library is missing."""
    from ezdxf import recover
    from ezdxf.lldxf.const import DXFError

    logging.getLogger("ezdxf").setLevel(logging.CRITICAL)
    try:
        document, _ = recover.read(io.BytesIO(data))
    except (DXFError, OSError, ValueError, LookupError, TypeError, AttributeError):
        raise ValueError("is no DXF drawing that can be read") from None
    strokes: list[Stroke] = []
    words: list[Words] = []
    left_out: Counter[str] = Counter()
    for count, (block, entity) in enumerate(_entities(document.modelspace())):
        sort = entity.dxftype()
        if count > _MOST:
            raise ValueError(f"holds more than {_MOST:,} lines")
        if sort in _LINES:
            strokes += [Stroke(path, block, entity.dxf.layer) for path in _paths(entity)]
        elif sort in _WORDS:
            at = entity.dxf.insert
            words.append(Words(_text(entity), block, np.array([at.x, at.y])))
        elif sort not in _SILENT:
            left_out[sort] += 1
    return Drawn(tuple(strokes), tuple(words), _unit(document, words), dict(left_out))


def _entities(space: Any) -> Iterator[tuple[str, Any]]:
    """All that is drawn, with the name of the block that it is in, the outermost of several."""
    from ezdxf.disassemble import recursive_decompose

    for entity in space:
        block = entity.dxf.name if entity.dxftype() == "INSERT" else ""
        if block and entity.mcount > _MOST_ROWS:
            raise ValueError(f"places a block more than {_MOST_ROWS:,} times at once")
        for part in recursive_decompose([entity]):
            yield block, part


def _paths(entity: Any) -> list[Floats]:
    """The lines of an entity as cubics `(S, 4, 2)`, seen from above."""
    from ezdxf.path import Command, make_path

    if entity.dxftype() == "LINE":
        start, end = entity.dxf.start, entity.dxf.end
        return [line((start.x, start.y), (end.x, end.y))[None]]
    try:
        path: Any = make_path(entity, segments=_ROUND, level=_SPLINE)
    except (TypeError, ValueError, ZeroDivisionError):
        return []
    at: Any = path.start
    parts: list[Floats] = []
    found: list[Floats] = []
    commands: Any = path.commands()
    for command in commands:
        if command.type is Command.MOVE_TO:
            found, parts = [*found, *([np.concatenate(parts)] if parts else [])], []
        elif (made := _segment(at, command)) is not None:
            parts.append(made)
        at = command.end
    return [*found, *([np.concatenate(parts)] if parts else [])]


def _segment(at: Any, command: Any) -> Floats | None:
    """One command as a cubic `(1, 4, 2)`; None for one without length."""
    end = command.end
    if hasattr(command, "ctrl1"):
        controls = (at, command.ctrl1, command.ctrl2, end)
    elif hasattr(command, "ctrl"):
        controls = (at, at + (command.ctrl - at) * (2 / 3), end + (command.ctrl - end) * (2 / 3), end)
    elif (at.x, at.y) != (end.x, end.y):
        return line((at.x, at.y), (end.x, end.y))[None]
    else:
        return None
    return np.array([[(c.x, c.y) for c in controls]])


def _text(entity: Any) -> str:
    text = entity.plain_text() if entity.dxftype() in ("TEXT", "MTEXT") else entity.dxf.text
    return " ".join(str(text).split())[:200]


def _unit(document: Any, words: list[Words]) -> float | None:
    """mm of a unit, as the header says it or a line of words after D6673; None where neither does."""
    said_so = [one.text.partition(":")[2].strip().upper() for one in words if one.text.lower().startswith(_UNITS)]
    if said_so:
        return {"METRIC": 1.0, "ENGLISH": 25.4}.get(said_so[0])
    return _MM.get(int(document.header.get("$INSUNITS", 0)))
