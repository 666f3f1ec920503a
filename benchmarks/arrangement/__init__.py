"""Random suites laid out and judged by a judge that shares nothing with the search."""
