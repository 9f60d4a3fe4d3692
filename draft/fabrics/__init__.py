"""What a cloth does: how far it stretches, how far it comes back, how wide it lies, how much it shrinks."""
