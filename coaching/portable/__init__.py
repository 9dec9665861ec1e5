"""Everything of one client or of a practice as files for other programs, and back into an empty practice."""
