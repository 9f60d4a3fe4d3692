"""Sheets of testers, filled in by chance and odd: other texts in fields, fields that hold themselves, bytes changed."""

from __future__ import annotations

import io
import random
import warnings

import pikepdf

from tests.fuzz.mangling import mangled

TEXTS = ("M", "L", "1", "3", "5", "98.5", "40 1/2 in", "yes", "Lovely.", "x" * 3000, "=1+1", "")


def odd_sheet(data: bytes, chance: random.Random) -> bytes:
    """The sheet filled in and saved by another program; now and then damaged afterwards."""
    with warnings.catch_warnings(action="ignore"), pikepdf.open(io.BytesIO(data)) as pdf:
        fields = list(pdf.Root.AcroForm.Fields)
        for one in fields:
            if chance.random() < 0.7:
                _fill(one, chance)
        if chance.random() < 0.15:
            one = chance.choice(fields)
            one.Kids = pikepdf.Array([one])
        if chance.random() < 0.15:
            del pdf.Root.AcroForm[chance.choice(list(pdf.Root.AcroForm.keys()))]
        written = io.BytesIO()
        pdf.save(written, static_id=True)
    changed = bytearray(written.getvalue())
    if chance.random() < 0.2:
        for _ in range(chance.choice((1, 10, 100))):
            changed[chance.randrange(len(changed))] = chance.randrange(256)
    return bytes(changed[: chance.randrange(len(changed))] if chance.random() < 0.05 else changed)


def _fill(field: pikepdf.Object, chance: random.Random) -> None:
    text = chance.choice(TEXTS)
    text = mangled(text, chance) if chance.random() < 0.3 else text
    plain = text.encode("utf-8", "replace").decode()
    values = (
        pikepdf.String(plain),
        pikepdf.Name("/" + (plain.strip("\0/ ") or "Off")[:100]),
        pikepdf.Array([plain]),
        7,
    )
    field.V = values[0] if chance.random() < 0.8 else chance.choice(values)
    if chance.random() < 0.05:
        field.T = pikepdf.String(plain)
