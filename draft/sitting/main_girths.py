"""The girths that all of a form leans on, and those that what hangs from the waist does."""

MAIN = ("bust_girth", "waist_girth", "hip_girth")
OF_SKIRTS = ("waist_girth", "hip_girth")
