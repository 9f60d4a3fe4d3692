"""From drafted pieces to paper: a neutral drawing in millimetres, and the writers that turn it into SVG and PDF."""
