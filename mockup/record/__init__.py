"""The record beside a suite: what was proofed, answered and ordered, by fingerprints."""
