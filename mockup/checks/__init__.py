"""Checks: what would spoil a print, where, by how much, and the least change that mends it."""
