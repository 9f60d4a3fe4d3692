"""What is filled in on a sheet: called in a process of its own, as a PDF comes from whoever sent it."""

from __future__ import annotations

import io
import json
from typing import Any

_DEEP, _MANY, _LONGEST = 8, 500, 4000


def values(data: bytes) -> bytes:
    """The values of a form's fields by their names, as JSON; an empty text where it is no PDF with fields."""
    import pikepdf

    found: dict[str, str] = {}
    try:
        with pikepdf.open(io.BytesIO(data)) as pdf:
            form = pdf.Root.get("/AcroForm")
            for one in list(form.get("/Fields", ()))[:_MANY] if form is not None else ():
                _read(one, "", found, 0)
    except (pikepdf.PdfError, TypeError, ValueError, AttributeError, KeyError):
        return b""
    return json.dumps(found).encode() if found else b""


def _read(one: Any, before: str, found: dict[str, str], depth: int) -> None:
    """A field, or those below it."""
    name = ".".join(filter(None, (before, str(one.get("/T", "")))))
    kids = [kid for kid in one.get("/Kids", ()) if "/T" in kid]
    if kids and depth < _DEEP:
        for kid in kids[:_MANY]:
            _read(kid, name, found, depth + 1)
        return
    value = one.get("/V")
    if value is None:  # some viewers keep what is chosen beside its widgets alone
        value = next((kid.get("/AS") for kid in one.get("/Kids", ()) if str(kid.get("/AS", "/Off")) != "/Off"), "")
    text = str(value)[:_LONGEST]
    found[name] = "" if text == "/Off" else text.removeprefix("/")
