"""Cloths and their properties, as a pattern names them and a reader has them.

Given what was written and chosen, it gives figures. It must not know pieces.
"""
