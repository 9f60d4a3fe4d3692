"""The reference of the whole language, made from the records that the reader and the checker themselves use."""
