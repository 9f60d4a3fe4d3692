"""Releases: all that a studio publishes of one version of a pattern, and what came back from those who tried it.

Given a pattern in its folder, it gives packs in every language, a listing for a shop, what has changed since the last
release, and the inputs that all of it was made of; and for testers sheets to fill in, with what their replies say of
the draft. Everything is drafted from one envelope of the inputs, so that what is edited meanwhile changes nothing.
"""
