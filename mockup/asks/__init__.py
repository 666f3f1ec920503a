"""What can be asked for: one function an ask, a request in, an answer out; also the Python face."""
