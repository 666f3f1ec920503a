"""One module a program: each reads a list of scenes as JSON and saves them as it would.

They need nothing of mockup, for most run under an interpreter of their own.
"""
