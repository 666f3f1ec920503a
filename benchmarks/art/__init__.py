"""A bench of print pages saved by real programs: half clean, half with one fault that is known."""
