"""garment."""
