"""From drafted pieces to paper: a neutral drawing in millimetres, and the writers that turn it into SVG and PDF.

Given: a `Garment`, which of its bodies, and a `Wording`. Gives: drawings, and the bytes of documents; the same input
gives the same bytes. Points `(n, 2)` and paths `(n, 4, 2)` are of one body here, and y points down. Pieces are drawn in
`piece` and set on sheets and pages in `pages` and `large`; `booklet`, `pictures` and `flat` draw what goes with them;
all stand on `drawing`. It must not know how lays are found, or which files a pack has.
"""
