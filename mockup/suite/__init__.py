"""The suite file: its schema, reading, starting and writing."""
