"""Everything that follows from the log: load a bounded stretch, compute it, save it; `run` does the three in one go."""
