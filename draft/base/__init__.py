"""What everybody stands on: notes and the places that they point at, quantities, reading and writing of files.

It does what has nothing to do with garments, and could serve another program. Given: texts, paths, bytes, functions.
Gives: `Note` and `Problems`, `Span`, quantities read and printed, files read within bounds and written all or none,
work begun on the other core or within limits. It must not know the language, a garment or a page.
"""
