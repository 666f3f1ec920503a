"""Envelopes: face, throat, shoulder, flap and gum line, and the liner inside."""
