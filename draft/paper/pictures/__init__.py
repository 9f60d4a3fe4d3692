"""Drawings that are no pattern: fit, lays, studies, two drafts on one another, where the tape goes.

Given: garments, or figures, outlines and words that say all there is to show. Gives: a `Drawing` each. It must not know
how what it shows was found: how a lay was searched for, which bodies were studied, what was chosen for whom.
"""
