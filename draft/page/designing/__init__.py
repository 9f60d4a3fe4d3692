"""What a designer asks: her text opened, drawn, looked over, gone on with, and what she sees laid over the drawing.

Given: a text as it stands in her browser, and for whom she looks at it. Gives: lines as the data of paths in mm with y
down, notes with their places in the text, in the browser's offsets. It must not change anything but by `save`.
"""

from __future__ import annotations

from draft.page.bench import Verb
from draft.page.designing.asked_of_text import completions, hovered
from draft.page.designing.combs_shown import combs
from draft.page.designing.construction import construction
from draft.page.designing.cutting_lines import cutting
from draft.page.designing.dragged import dragged
from draft.page.designing.ends_of_people import ends_of_people
from draft.page.designing.looked_over import checks, mend
from draft.page.designing.nested import nest
from draft.page.designing.read_beside import read_beside
from draft.page.designing.saved import save
from draft.page.designing.text_opened import choices_of, open_text
from draft.page.designing.versions import compare
from draft.page.designing.walked import walk

VERBS: dict[str, Verb] = {
    "open": open_text,
    "choices_of": choices_of,
    "nest": nest,
    "cutting": cutting,
    "checks": checks,
    "mend": mend,
    "complete": completions,
    "hover": hovered,
    "walk": walk,
    "combs": combs,
    "construction": construction,
    "compare": compare,
    "dragged": dragged,
    "ends_of_people": ends_of_people,
    "save": save,
    "read": read_beside,
}
