"""Made-up and mangled inputs taken the whole way, from text to every output, each within limits.

A case is made from its kind and a number alone, so that `python -m tests.fuzz KIND NUMBER` runs it again. `mangling`
makes odd texts of sound ones, `corpus` has the sound ones, `cases` puts cases together, `worker` runs them in a process
with limits, `judging` says whether what came of one is allowed, `hunting` runs many and `shrinking` makes one small.
"""
