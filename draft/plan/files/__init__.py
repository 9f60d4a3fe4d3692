"""The files that a pattern is put together from, and lines of one in the place of another's.

Given the texts that were read, it gives one tree. It must not know what lines mean.
"""
