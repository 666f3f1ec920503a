"""What workers do with foreign files, by MuPDF and cairo. Named to the workshop, never imported."""
