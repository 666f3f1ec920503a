"""What the comparison of two proofs finds, and what it invents, on pairs made for it."""
