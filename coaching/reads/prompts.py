"""Which questions wait for an answer."""

import datetime as dt

from django.db.models import Exists, OuterRef, QuerySet

from coaching.models import Decision, Prompt
from coaching.recompute.calendar import WEEK


def open_prompts(monday: dt.date, today: dt.date) -> QuerySet[Prompt]:
    """Return the questions on the table in the week of `monday`: about the next week, or last week's about this one.

    An answered question is closed, and so is one whose last session lies behind.
    """
    answered = Decision.objects.filter(prompt_id=OuterRef("pk"), undone_at=None)
    rows = Prompt.objects.filter(~Exists(answered), week__in=(monday, monday - WEEK), last_date__gte=today)
    return rows.order_by("week")
