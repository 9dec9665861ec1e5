"""The small writes that a phone sends: what each kind must carry, and what carries it out."""
