"""The command `plainseam`: what is typed becomes requests, what the other rooms give becomes words and files.

Reading begins in `main.py`. It is given the arguments of a terminal, and gives an exit code, messages and files. All
that knows of terminals, options and exit codes is here. It must not draft, reckon or draw anything itself: whatever a
page or a batch of orders needs as well stands in another room.
"""
