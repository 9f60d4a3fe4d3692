"""What trying the limits of each bundled pattern takes, and that nothing fails in any."""

from __future__ import annotations

import time

import pytest

from draft.trying.limits import try_limits
from tests.asking import asked
from tests.pieces.bundled import PATTERNS


@pytest.mark.slow
@pytest.mark.parametrize("name", PATTERNS)
def test_the_limits_of_a_bundled_pattern(name: str) -> None:
    begun = time.process_time()
    limits = try_limits(asked(name))
    took = time.process_time() - begun
    settings = 1 + len(limits.settings.alone) + len(limits.settings.pairs)
    print(f"\n{name}: {len(limits.offers)} styles, {settings} settings, {took:.1f} s")
    assert not [cause.fact for cause in limits.causes if cause.is_error]
