"""The command line: parse, call, print; no computation."""
