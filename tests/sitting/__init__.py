"""How a garment sits: what is read of a settled toile, drawn and said."""
