"""Edges, and the darts and pleats on them, planned.

Given lines of a sheet, it gives values. It must not know moves.
"""
