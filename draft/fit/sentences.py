"""A fit in words: "M at the bust, XL at the hip: cut XL, or make it to measure"."""

from __future__ import annotations

from collections.abc import Sequence

from draft.bodies.blend import GIRTHS
from draft.fit.choosing import SizeFit


def fit_sentence(fit: SizeFit, sizes: Sequence[str], body: int = 0) -> str:
    """The best size by each girth and over all, for one of the bodies."""
    groups: dict[str, list[str]] = {}
    for level, name in enumerate(fit.names):
        groups.setdefault(_size(fit, sizes, body, level), []).append(name)
    by_girth = ", ".join(f"{size} at the {and_list(names)}" for size, names in groups.items())
    return f"{by_girth}: {_advice(fit, sizes, body, len(groups))}"


def between(fit: SizeFit, sizes: Sequence[str], body: int = 0) -> str:
    """How to draft one of the bodies between sizes, or an empty text where one size fits all over."""
    parts = [
        f"{name} {sizes[int(fit.nearest[body, level])]}"
        for level, name in enumerate(fit.names)
        if name in GIRTHS and not fit.beyond[body, level]
    ]
    mixed = len({part.split(" ", 1)[1] for part in parts}) > 1
    return f'drafted between sizes: `--like "{", ".join(parts)}"`' if mixed else ""


def and_list(names: Sequence[str]) -> str:
    """`bust, waist and hip`."""
    return " and ".join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else names[0]


def _size(fit: SizeFit, sizes: Sequence[str], body: int, level: int) -> str:
    beyond = int(fit.beyond[body, level])
    size = sizes[int(fit.nearest[body, level])]
    return {0: size, 1: f"larger than {size}", -1: f"smaller than {size}"}[beyond]


def _advice(fit: SizeFit, sizes: Sequence[str], body: int, groups: int) -> str:
    overall = int(fit.overall[body])
    if overall < 0:
        short = [name for name, fits in zip(fit.names, fit.enough[body, -1], strict=True) if not fits]
        return f"even {sizes[-1]} is too close at the {and_list(short)}, so make it to measure"
    if groups == 1 and not fit.beyond[body].any():
        return f"cut {sizes[overall]}"
    if (fit.beyond[body] < 0).all():
        return f"even {sizes[0]} is too large, so make it to measure"
    if not fit.served[body]:
        return f"{sizes[overall]} would go on and be far too large elsewhere, so make it to measure"
    return f"cut {sizes[overall]}, or make it to measure"
