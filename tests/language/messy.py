"""Layouts that a text might have been written in: other indents, spaces, empty lines and comments, the same words."""

from __future__ import annotations

import re
from random import Random

from hypothesis import strategies as st

_PART = re.compile(r'(?P<kept>"[^"\n]*"|#[^\n]*|\d+/\d+)|(?P<mark>[,:()=*+])|(?P<space> +)|(?P<word>[^\s",:()=*+#]+)')

_HOLDING_BLOCKS = ("piece", "template", "when", "otherwise")


@st.composite
def laid_out(draw: st.DrawFn, text: str, breaks: bool = True) -> tuple[str, list[str]]:
    """The text in another layout, some lines in two rows if `breaks`, and the comments that it then holds in order."""
    unit = draw(st.integers(1, 7))
    new = Random(draw(st.integers(0, 2**32)))
    rows: list[str] = []
    depth = 0
    block = ""
    for written in text.rstrip("\n").split("\n"):
        if not depth and new.random() < 0.15:
            rows += [" " * new.randrange(9)] * new.randrange(1, 4)
        if new.random() < 0.1:
            rows.append(" " * new.randrange(20) + f"#{new.choice(['', ' note', ' cut 2, (so'])} {len(rows)}")
        level = (len(written) - len(written.lstrip(" "))) // 4
        if not level and written.strip():
            block = written.split()[0]
        row = " " * (level * unit) + _spaced(written.strip(), new)
        branch = written.split()[:1] in (["when"], ["otherwise"])  # which never goes on below
        if breaks and level == 1 and not depth and not branch and block not in _HOLDING_BLOCKS:
            row = _broken(row, unit, new)
        if written.strip() and "#" not in row and new.random() < 0.1:
            row += " " * new.randrange(3) + f'# "beside {len(rows)}'
        rows.append(row + " " * new.choice([0, 0, 3]))
        depth += written.split("#")[0].count("(") - written.split("#")[0].count(")")
    laid = "\n".join(rows) + "\n" * new.randrange(4)
    return laid, comments(laid)


def _spaced(written: str, new: Random) -> str:
    out = ""
    for part in _PART.finditer(written):
        if part["space"]:
            out += " " * new.randrange(1, 5)
        elif part["mark"]:
            out += " " * new.randrange(3) + part[0] + " " * new.randrange(3)
        else:
            out += part[0]
    return out


def _broken(row: str, unit: int, new: Random) -> str:
    """The row, perhaps going on below, further in; never within a quantity."""
    gaps = [
        found for found in re.finditer(r'"[^"]*"|#.*|(?<=[a-z_,=+*)]) +(?=\S)(?!least|most)', row) if found[0].isspace()
    ]
    if not gaps or new.random() > 0.2:
        return row
    gap = new.choice(gaps)
    return row[: gap.start()] + "\n" + " " * (unit + new.randrange(1, 12)) + row[gap.end() :]


def comments(text: str) -> list[str]:
    """The comments of a text in their order, without the spaces behind them."""
    found = re.findall(r'"[^"\n]*"|(#[^\n]*)', text)
    return [comment.rstrip() for comment in found if comment]


def without_comments(text: str) -> list[str]:
    """The rows of a text that hold words, without comments and the spaces behind."""
    rows = [re.sub(r'("[^"\n]*")|#[^\n]*', lambda m: m[1] or "", row).rstrip() for row in text.split("\n")]
    return [row for row in rows if row]
