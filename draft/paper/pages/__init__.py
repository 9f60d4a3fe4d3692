"""All pieces on a sheet, and the sheet on the pages of a home printer, as few as a short search finds.

Given: a `Garment`, its bodies, and a size of paper. Gives: a `PatternDrawing` of all pieces, a `Packing` that says
where each piece lies on which pages, and a `PagedSheet`: the guide, the pages with their match marks, and which size
needs which. To a packing a piece is its footprint: it must not know what is drawn there, nor what a booklet says of the
pages.
"""
