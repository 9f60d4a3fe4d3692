"""The studio: what a designer says once for all patterns of a folder, in `studio.toml` beside them.

Given: a folder. Gives: a `Studio`, or None where the folder has none; its colours are held to a contrast with paper,
its prices are kept for whoever reckons a cost. It must not know a pattern, a paper or a drawing: whoever prints takes
what it says for what nobody typed, and a pattern's own lines win over it.
"""
