"""What is chosen of the styles, and the lines that are there for it.

Given a tree and choices, it gives the tree that is left. It must not know what is drawn.
"""
