"""A dress form of a body's measures: sections level by level, neck, arms and legs, as arrays over bodies.

Given: `Bodies`, and in whose manner to estimate what was not measured. Gives: a `Form` whose tape reads what was
measured, with what was estimated and what to be careful of; its outline from in front and from the side; the way of a
tape down its front and back; and a `Field`, the distance from it in space, its arms held at any angle, for cloth to lie
on. It must not know a garment, or how anything is drawn.
"""

from draft.form.dress_form import Form, form_of

__all__ = ["Form", "form_of"]
