"""Drafting: a request becomes a plan, its bodies are found, and both together a garment with all there is to say of it.

It is given a `Request`, which is plain data, and gives a `Planned` (`plan_for`) or a `Drafted` (`draft_and_check`), or
raises `Problems`. It must not know who asks (a command, a page, a batch) nor what is drawn or printed of the garment.
"""
