"""The tutorial as its tests read it."""

from __future__ import annotations

from draft.base.resources import folder
from draft.page.designing.steps_followed import Block, State, blocks, states

__all__ = ["BLOCKS", "TUTORIAL", "Block", "State", "blocks", "states"]

TUTORIAL = folder("pieces") / "TUTORIAL.md"
BLOCKS = folder("pieces") / "BLOCKS.md"
