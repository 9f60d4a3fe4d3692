"""The bodies that a pattern is drafted for, and every body measure that the engine knows by name.

Given: a size chart, one person's file, a table of many, or measures as they were typed. Gives: `Bodies`, arrays with a
name for each body; notes on what is missing or cannot be true; estimates of what nobody measured, with their spread;
and where the tape goes, as lines on a neutral figure. It must not know a pattern: it is told which measures one needs.
"""
