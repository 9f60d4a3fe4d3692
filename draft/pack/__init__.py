"""pack."""
