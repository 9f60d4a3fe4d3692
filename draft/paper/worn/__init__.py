"""A garment on a form, drawn: what is seen of both from three sides, how it is stretched and where it stands off.

Given: what `draft/sitting` tells of one garment on one form, as surfaces and figures. Gives: drawings. It must not know
how cloth is settled, or what is to be said of it.
"""
