"""How much cloth a garment needs, and how its pieces are laid on it to be cut."""
