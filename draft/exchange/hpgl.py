"""The bare outlines in the language of plotters, HPGL/2, as ezdxf writes it: for machines that read no SVG.

A pen of its own draws the lines inside. Curves are straight lines that keep to them within 0.02 mm, less than a step
of such a machine.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Problems, error
from draft.geometry.flatten import flatten

_FLAT = 0.02
_STEP = 0.025
"""Of a plotter, mm. Lines are written from point to point: on whole steps nothing that is rounded off adds up."""
_BLACK, _BLUE = 7, 5
"""Pens by the usual numbers of colours."""
_NAMED = b'CO"plainseam";'
_BEGUN = b"IN;"


def hpgl(cut: Sequence[Floats], inner: Sequence[Floats], size: tuple[float, float]) -> bytes:
    """What is cut and what is drawn inside, runs of curves `(n, 4, 2)` in mm, y down, on a field of this size.

    Lines inside come first, as in the SVG. Raises Problems without ezdxf.
    """
    ezdxf = _library()
    from ezdxf.addons.drawing import layout
    from ezdxf.addons.drawing.frontend import Frontend
    from ezdxf.addons.drawing.hpgl2 import PlotterBackend
    from ezdxf.addons.drawing.properties import RenderContext

    document = ezdxf.new(units=ezdxf.units.MM)
    space, (wide, high) = document.modelspace(), size
    for colour, runs in ((_BLUE, inner), (_BLACK, cut)):
        for run in runs:
            points = flatten(run, _FLAT)
            up = np.round(np.stack([points[:, 0], high - points[:, 1]], axis=1) / _STEP) * _STEP
            space.add_lwpolyline(up.tolist(), dxfattribs={"color": colour})
    backend = PlotterBackend()
    Frontend(RenderContext(document), backend).draw_layout(space)
    page = layout.Page(wide, high, layout.Units.mm, margins=layout.Margins.all(0))
    found: bytes = backend.compatible(page, settings=layout.Settings(scale=1, fit_page=False))
    return found.replace(_BEGUN, _BEGUN + _NAMED, 1)


def _library() -> Any:
    try:
        import ezdxf
    except ImportError:
        fact = "HPGL is written by the package `ezdxf`, which is not installed"
        raise Problems([error(fact, None, "install it with `pip install 'plainseam[dxf]'`")]) from None
    return ezdxf
