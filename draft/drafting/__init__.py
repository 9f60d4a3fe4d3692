"""drafting."""
