"""From text to tree: what is written in a piece file, each thing with its place, and no meaning yet.

`reader.py` reads with the grammar and the rules of `builder.py`; `tree/` is what comes out; `forms/` documents what
the structure may hold; `tidy.py` lays a file out. Given: a `Source`. Gives: a `File`, and notes on every line that
cannot be read. It must not know which names exist, what a word computes, or a body.
"""
