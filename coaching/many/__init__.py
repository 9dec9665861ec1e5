"""Many questions of one kind, answered together."""
