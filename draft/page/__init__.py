"""The page: the engine behind a browser, for who makes a garment to her measures and for who writes patterns.

Given: what a browser asks over one web socket, as plain JSON. Gives: answers of `VERBS`, made in worker processes that
are ended where they take too long. `site.py` puts it together; a person's measures stand in no log and in no address
that a server sees. It must not draft itself: a verb makes a `Request` and calls what the command calls.
"""
