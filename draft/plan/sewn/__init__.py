"""What is sewn to what: joins with both of their sides, patches and facings.

Given lines and pieces, it gives planned joins. It must not know how pieces were drawn.
"""
