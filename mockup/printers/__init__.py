"""Printers: their catalogues and prices, which dies they have, what else they could make."""
