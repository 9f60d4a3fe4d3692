"""A function that does what its item says, for another process to call."""

from __future__ import annotations

import os
import time


def behaved(item: bytes) -> bytes:
    """A function that does what its item says: it runs in the other process."""
    begun = time.process_time()
    if item == b"endless":
        while True:
            pass
    if item == b"asleep":
        time.sleep(3600)
    if item == b"busy":
        while time.process_time() - begun < 0.4:
            pass
    if item == b"greedy":
        return b"x" * 10**10
    if item == b"broken":
        os.abort()
    if item == b"long":
        return b"x" * 10**8
    if item == b"wrong":
        raise ValueError
    return item.upper()
