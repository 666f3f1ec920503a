"""The one door to foreign files: workers with a deadline, a cap on memory, no network."""
