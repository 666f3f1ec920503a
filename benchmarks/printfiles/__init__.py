"""Print files made of pages that real programs saved, measured by programs that are not ours."""
