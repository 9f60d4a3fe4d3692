"""From tree to plan: names found, kinds checked, steps put in order, relations set up to be solved.

Given: the texts of a pattern (`library.py`), the styles and the cloth that were chosen. Gives: a `Plan` (`plan.py`)
that can be drafted for any list of bodies, or `Problems` with every mistake; `make.py` is where it begins. What could
not be made is a broken value and has its note, and no plan that holds one leaves this room. It must not know any
body.
"""
