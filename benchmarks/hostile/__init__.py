"""Hostile input at every door: what a file, a value or a system can do to the program.

`python -m benchmarks.hostile [WORD...]` runs the cases whose names hold a word, each as a command
of its own, and says which ended otherwise than they should: with a traceback, late, too large, or
with files left behind, changed or half written.
"""
