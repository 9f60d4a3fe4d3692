"""A parametric drafting engine: one plain text and a chart of bodies become pieces, seams and paper.

The way through is text, tree, plan, (plan x bodies), pieces, checks, drawing, paper; each arrow is one public function
(see DEVELOPERS.md).
"""

__version__ = "0.1.0"
