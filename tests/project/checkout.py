"""Where the checkout lies, for the tests of the project itself."""

from __future__ import annotations

from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
