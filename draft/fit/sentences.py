"""A fit in words: "M at the bust, XL at the hip: cut M by the bust, and grade out to XL at the hip"."""

from __future__ import annotations

from collections.abc import Sequence

from draft.base.naming import and_list
from draft.bodies.blend import GIRTHS
from draft.fit.choosing import SizeFit


def fit_sentence(fit: SizeFit, sizes: Sequence[str], body: int = 0, where: str = "all over") -> str:
    """The best size by each girth and over all, for one of the bodies; `where` says what of it is known."""
    groups: dict[str, list[str]] = {}
    for level, name in enumerate(fit.names):
        groups.setdefault(_size(fit, sizes, body, level), []).append(name)
    by_girth = ", ".join(f"{size} at the {and_list(names)}" for size, names in groups.items())
    return f"{by_girth}: {_advice(fit, sizes, body, where if len(groups) > 1 else '')}"


def between(fit: SizeFit, sizes: Sequence[str], body: int = 0) -> str:
    """How to draft one of the bodies between sizes, or an empty text where one size fits all over."""
    parts = [
        f"{name} {sizes[int(fit.nearest[body, level])]}"
        for level, name in enumerate(fit.names)
        if name in GIRTHS and not fit.beyond[body, level]
    ]
    mixed = len({part.split(" ", 1)[1] for part in parts}) > 1
    return f'drafted between sizes: `--like "{", ".join(parts)}"`' if mixed else ""


def how_to_grade(fit: SizeFit, sizes: Sequence[str], body: int = 0) -> str:
    """How one of the bodies is cut from several sizes, or an empty text where one will do or none is large enough."""
    cut = int(fit.cut[body])
    grading = fit.grading(body) if cut >= 0 else {}
    if not grading or min(grading.values()) < 0:
        return ""
    used = ",".join(sizes[size] for size in sorted({cut, *grading.values()}))
    return f"print them on one another with `--sizes {used}`, and draw a smooth line from one size over to the other"


def _size(fit: SizeFit, sizes: Sequence[str], body: int, level: int) -> str:
    beyond, fitting = int(fit.beyond[body, level]), int(fit.fitting[body, level])
    size = sizes[fitting if fitting >= 0 else int(fit.nearest[body, level])]
    return {0: size, 1: f"larger than {size}", -1: f"smaller than {size}"}[beyond]


def _advice(fit: SizeFit, sizes: Sequence[str], body: int, where: str) -> str:
    cut = int(fit.cut[body])
    if cut < 0:
        return f"even {sizes[-1]} is too close at the {fit.names[fit.frame]}, so make it to measure"
    if (fit.beyond[body] < 0).all():
        return f"even {sizes[0]} is too large, so make it to measure"
    grading = fit.grading(body)
    close = [fit.names[level] for level, size in grading.items() if size < 0]
    if close:
        return f"even {sizes[-1]} is too close at the {and_list(close)}, so make it to measure"
    if not grading:
        return f"cut {sizes[cut]}, which has room enough {where}" if where else f"cut {sizes[cut]}"
    out = _graded(fit, sizes, {level: size for level, size in grading.items() if size > cut})
    taken_in = _graded(fit, sizes, {level: size for level, size in grading.items() if size < cut})
    ways = " and ".join(f"grade {way} {where}" for way, where in (("out", out), ("in", taken_in)) if where)
    return f"cut {sizes[cut]} by the {fit.names[fit.frame]} and {ways}; or make it to measure"


def _graded(fit: SizeFit, sizes: Sequence[str], grading: dict[int, int]) -> str:
    """`to XL at the hip, to L at the upper arm and cuff`."""
    levels = {size: [fit.names[at] for at, other in grading.items() if other == size] for size in grading.values()}
    return ", ".join(f"to {sizes[size]} at the {and_list(names)}" for size, names in levels.items())
