"""Patterns for other machines: DXF for drafting programs and industrial cutters, bare outlines for laser cutters."""
