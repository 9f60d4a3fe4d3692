"""large."""
