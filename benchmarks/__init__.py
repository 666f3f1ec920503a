"""Ratios of time and memory, measured in one run; by hand or by `make bench`, never as tests."""
