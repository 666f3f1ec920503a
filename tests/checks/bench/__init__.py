"""A bench of print pages drawn by code: each with one known fault, or with none."""
