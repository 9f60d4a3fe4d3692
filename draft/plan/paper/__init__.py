"""Sheets of paper: traced, cut along lines, and moved.

Given drafts and moves, it gives states of a sheet. It must not know joins.
"""
