"""How long work tells how far it has come: a function that takes a word on what is done or begun."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

Progress: TypeAlias = Callable[[str], object]
