"""From tree to plan: names found, kinds checked, steps put in order, relations set up to be solved."""
