"""What a garment is: pieces, edges, take-ups, notches, marks, joins and finished measurements, a record each.

The same records are planned with values still to be found and drafted with arrays, the body on the first axis; see
`garment.py`. `changes.py` says what is different between two drafted garments. Given: numbers. Gives: records that hold
them. It must not know the tree, the plan, a size chart or how anything is drawn.
"""
