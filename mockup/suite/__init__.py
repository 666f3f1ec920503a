"""The suite file: its schema, reading and starting, and the suite it tells."""
