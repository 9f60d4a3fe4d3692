"""The neutral drawing in millimetres, what it is made of, and the writers of SVG and PDF.

Given: items in layers, lines with a stroke and words with a size. Gives: a `Drawing` that can be turned and moved, an
SVG text, page descriptions and documents; sizes of paper, the carried font, room for words inside a shape, boxes in
rows, columns that flow from page to page, every printed word in a language. It must not know what a drawing is of; only
`line_styles.py` tells the lines of a piece apart.
"""
