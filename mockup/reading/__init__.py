"""The facts of a page and of what an envelope holds: measured and told apart, never judged."""
