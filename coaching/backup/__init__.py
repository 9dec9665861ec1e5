"""One file with everything a practice has typed, that either database engine can be filled from again."""
