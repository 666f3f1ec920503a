"""Ordering: what goes to the printer, made from her own files, and looked at again."""
