"""The reference of the whole language, made from the records that the reader and the checker themselves use.

Given: the records of the forms and the words, and the example that each has. Gives: a page in Markdown, the same on a
terminal, entries for an editor, and what each example comes to. Nothing is described a second time here. It must not
know any pattern but the small draft that the examples are lines of.
"""
