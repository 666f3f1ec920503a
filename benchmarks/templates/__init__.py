"""A bench of templates: drawn from a plan, saved by real programs, read and scored."""
