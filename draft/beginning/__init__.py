"""A new pattern's text: from another pattern, from its blocks or templates, or from outlines that somebody has already.

A drawing is read into strokes, these are joined into closed outlines, parted at corners, and each part gets as few
curves as the engine needs to keep by it; what was written is drafted and held to what was read. Given: what is asked
for. Gives: texts and what there is to say. It must not know a verb or write a file.
"""
