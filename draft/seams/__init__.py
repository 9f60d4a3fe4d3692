"""Seams: walking joined edges against each other, and the allowance that is cut outside them."""
