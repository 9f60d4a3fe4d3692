"""How a drafted garment sits on the bodies that it was drafted for: ease, the stretch that it needs, the best size."""
