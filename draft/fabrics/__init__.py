"""What a cloth does: how far it stretches, how far it comes back, how wide it lies, how much it shrinks.

Given: the name or the path of a fabric's file. Gives: a `Fabric`, and for each property that a pattern may lean on what
it is called, how it is found and which figures can be true. It must not know a pattern, a garment or a lay.
"""
