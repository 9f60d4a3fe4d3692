"""The lay as a person meets it: figures as text and tables, lays as pictures, built from `cloth` and `paper`.

Given: a `Garment`, the cloths that are asked for, what is in the stash. Gives: lays of all sizes, of several as one, or
of what fits; what is said of them on a terminal and in the booklet; their pictures as files. It must not know how a lay
is found, nor how a picture is drawn.
"""
