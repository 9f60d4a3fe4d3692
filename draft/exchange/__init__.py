"""Patterns for other machines: DXF for drafting programs and industrial cutters, bare outlines for laser cutters.

Given: a `Garment`. Gives: files by their place in a pack, a file for each size, true to size in mm, as the standard and
the machines have it. It must not know printed pages, nor any language but the standard's.
"""
