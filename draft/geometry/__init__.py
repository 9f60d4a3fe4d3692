"""Lines in millimetres, bodies on the first axis: numbers only, no meaning, and never anything but finite.

Given and given back: points `(bodies, 2)` and paths `(bodies, segments, 4, 2)` of cubics, or one body's without the
first axis; where something fails for a body, a mask says so. Lengths, areas, flattening, crossings and parallels are
worked out here and nowhere else: exactly or to a stated tolerance. It must not know an edge, a piece or a page.
"""
