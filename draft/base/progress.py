"""How long work tells how far it has come, and what it had to leave out: functions that take a word or a note."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from draft.base.notes import Note

Progress: TypeAlias = Callable[[str], object]
"""Takes a word on what is done or begun."""
Warn: TypeAlias = Callable[[Note], object]
"""Takes a note on what was left out."""
