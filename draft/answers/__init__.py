"""Answers: what the engine knows, as text for a terminal and as files of tables and drawings; one file an answer.

They are given a garment, a plan or a request, and give strings and bytes by their place in a folder. An answer must not
print, write to the disk, or know what options it was asked by.
"""
