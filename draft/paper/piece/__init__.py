"""piece."""
