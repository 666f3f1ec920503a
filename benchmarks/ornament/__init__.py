"""Print art as real programs save it: what is drawn, and who saves it."""
