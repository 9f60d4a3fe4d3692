"""How a garment sits on a form: what a toile shows, how far it is to be trusted, and what there is to say of it.

Given: a drafted garment, the measures of a body, and the settled cloth of `draft/toile`. Gives: a `Worn` surface with
its figures, readings level by level, and what to say as keys with their figures. It must not know a language, or how
anything is drawn.
"""
