"""How a drafted garment sits on the bodies that it was drafted for: ease, the stretch that it needs, the best size.

Given: a `Garment` whose finished measurements say what they are worn over. Gives: ease level by level, how far the
cloth must give and why, the size to cut for whom, and a verdict on each of many bodies. It must not know what kind of
garment it is, or how anything is drawn.
"""
