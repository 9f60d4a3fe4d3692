"""Lines in millimetres, bodies on the first axis: numbers only, no meaning, and never anything but finite."""
