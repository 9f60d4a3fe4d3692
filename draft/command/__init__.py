"""command."""
