"""Files for the designer: PNG, proof PDF, reports; written whole or not at all."""
