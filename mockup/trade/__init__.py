"""Facts of the trade as tables with their sources; look-up and no more."""
