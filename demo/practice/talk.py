"""What clients and coaches say to each other in the invented practice, and what coaches note for themselves."""

import datetime as dt

from accounts.models import Client, Membership
from coaching.models import CoachNote
from demo.practice.people import Person
from logbook.models import Session
from logbook.services.comments import comment_write, comments_read

# By simulated course, after one of the latest sessions, oldest first: (days after it, by the client, text).
SAID: dict[str, tuple[tuple[int, bool, str], ...]] = {
    "sore_elbow": (
        (0, True, "The elbow pinches on the last reps of the extension. I stopped there."),
        (1, False, "Right to stop. Leave it out until a clinician has looked at it; the rest stays as planned."),
    ),
    "overreaching": ((0, True, "Slept badly all week and everything felt ten kilos heavier."),),
    "novice": (
        (0, False, "Good first weeks. Stop each set when the next repetition would slow down a lot."),
        (1, True, "Will do. Is it fine to rest longer than written on the squat?"),
    ),
    "misses_sessions": ((2, False, "Thursday does not seem to work. Shall we move it to Saturday morning?"),),
    "one_lift_falls_back": ((0, True, "Narrower stance on the leg press since last month, and it feels heavier."),),
    "steady": ((0, False, "Clean set of numbers. Carry on."),),
}
NOTED = {
    "sore_elbow": "Long positions for triceps were new in this block; go back to the cable next time.",
    "overreaching": "Says yes to everything. Ask about sleep before adding sets.",
    "misses_sessions": "Shift work until spring. Two days that happen are better than three that do not.",
}


def write_talk(client: Client, person: Person, coach: Membership, now: dt.datetime) -> None:
    """Write what belongs to the person's course, about the session before the latest one. The last word is unread."""
    session = next(iter(Session.objects.filter(client=client).order_by("-started_at")[1:2]), None)
    if session is None:
        return
    written = []
    for days, by_client, text in SAID.get(person.truth, ()):
        at = session.started_at + dt.timedelta(days=days, hours=3)
        if at > now:
            continue
        author = client.user if by_client else coach.user
        written.append(comment_write(client=client, author=author, text=text, written_at=at, session=session))
    for reader in (client.user, coach.user):
        comments_read(reader=reader, ids=[comment.pk for comment in written[:-1]])
    if person.truth in NOTED:
        CoachNote.objects.create(client=client, author=coach.user, text=NOTED[person.truth])
