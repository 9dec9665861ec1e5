"""What this room tells whoever listens above it."""

from django.dispatch import Signal

# Sent after the commit that wrote a RecomputeRequest, with `client_id` and `large` (see logbook/services/recompute.py).
recompute_requested = Signal()

# The same for requests of many clients that were written together, with `client_ids`.
recomputes_requested = Signal()

# Sent after the commit that queued a table of past training, with `run_id`: a worker should take it.
past_queued = Signal()

# Sent after the commit that wrote a Comment, with `comment_id` and `reader_ids`, the people who have not read it.
comment_written = Signal()
