"""Trying the limits: a pattern in every style at both of its ends, for figures of every kind, and what then fails.

Given: a `Request`. Gives: the settings that were tried, the bodies, and each cause of a fault once, with who is
concerned and where it is worst. All settings of the same choices are drafted as one array of bodies. It must not know
how its findings are told or drawn, nor change a pattern.
"""
