"""Handing a pattern on: the files that it uses, put into one envelope, and told of.

Given a pattern's name or path, it gives its files or the bytes of an envelope. It must not draft anything.
"""
