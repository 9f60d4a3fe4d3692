"""What a garment costs by a studio's own prices: cloth as it is laid and sold, notions as they are counted.

Given: a drafted garment, `Prices`, the cloths that it is laid on. Gives: lines with an amount and a sum for every size,
and what has no price. It must not know orders, nor how a lay is found.
"""
