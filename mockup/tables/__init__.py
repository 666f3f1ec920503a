"""TOML files that people write: read whole, and their mistakes told in the project's own words."""
