"""Write and change what coaches note about a client."""

import datetime as dt

from accounts.models import Client, User
from coaching.models import CoachNote


def note_write(*, client: Client, author: User, text: str) -> CoachNote:
    """Keep a note; who the author is to the client is for the caller to have checked."""
    return CoachNote.objects.create(client=client, author=author, text=text)


def note_edit(*, note: CoachNote, text: str, now: dt.datetime) -> None:
    """Replace the text, and say when."""
    note.text, note.edited_at = text, now
    note.save(update_fields=["text", "edited_at"])


def note_remove(*, note: CoachNote) -> None:
    """Remove it for good."""
    note.delete()
