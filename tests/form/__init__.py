"""The dress form: its tape, its levels, its outlines, and the garment's room on it."""
