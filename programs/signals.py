"""What this room tells whoever listens above it."""

from django.dispatch import Signal

# Sent inside the transaction that changed a client's plan or targets, with `client_id` and `since` (a date of the
# client's calendar): everything derived from that day on must be computed again.
plan_changed = Signal()

# The same for many clients at once, with `since` ({client id: date}): what follows is asked for in one go.
plans_changed = Signal()

# Sent after the commit that queued a draft, with `run_id`: a worker should take it.
draft_requested = Signal()
