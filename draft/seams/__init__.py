"""What is sewn and how it is cut: the sides of joins walked along one another, and the lines outside them.

Given: a `Garment` as it was drafted. Gives: the lengths of both sides and where they differ, seam ends and how they run
on, notches on both sides, outlines trued across darts and seams, and the cutting line of each piece, proved
(`proof.py`) before anyone sees it. It must not know the text, paper, or what a check makes of it.
"""
