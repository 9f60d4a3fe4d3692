"""The lay as a person meets it: figures as text and tables, layouts as drawings, built from `cloth` and `paper`."""
