"""Packs: the printed files of a garment, each kind on its own (`printed_files`) or all that a maker needs (`pack`).

They are given a drafted garment and a `PaperRequest`, and give bytes by their place in a folder, with a line told on
each document. Nothing here touches the disk or knows of a command line: a page and a batch of orders call the same.
"""
