"""Reading what the command line says of cloth: lengths and shares, with one clear message for what is neither."""

from __future__ import annotations

from draft.notes import Problems, error
from draft.units import Kind, QuantityError, read_quantity


def length_of(text: str, option: str, example: str) -> float:
    """A length in mm. Raises Problems."""
    return _read(text, Kind.LENGTH, "a length", f"write `{option} {example}`")


def share_of(text: str, option: str) -> float:
    """A share such as `5 %`; a bare number of 1 or more is taken for percent. Raises Problems."""
    value = _read(text, Kind.NUMBER, "a share", f"write `{option} 5%`")
    return value / 100 if value >= 1 and "%" not in text else value


def _read(text: str, kind: Kind, what: str, hint: str) -> float:
    try:
        found = read_quantity(text)
    except (QuantityError, ValueError, OverflowError) as reason:
        raise Problems([error(str(reason), None, hint)]) from None
    if found.kind is not kind and not (kind is Kind.LENGTH and found.value == 0):
        raise Problems([error(f"`{text}` is not {what}", None, hint)])
    return found.value
