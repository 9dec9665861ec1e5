"""Which questions wait for an answer."""

import datetime as dt
from collections.abc import Iterable

from django.db.models import Exists, OuterRef, Q, QuerySet
from django.db.models.fields.json import KT

from coaching.models import Decision, Prompt
from coaching.recompute.calendar import WEEK
from coaching.recompute.prompts import topic_of


def open_prompts(monday: dt.date, today: dt.date) -> QuerySet[Prompt]:
    """Return the questions on the table in the week of `monday`: about the next week, or last week's about this one.

    An answered question is closed, and so is one whose last session lies behind. So is last week's when this week's
    asks the same: who answers the newer has answered both.
    """
    same = Q(kind=OuterRef("kind")) & (~Q(kind="swap") | Q(about=OuterRef("about")))
    newer = Prompt.objects.annotate(about=KT("proposal__exercise")).filter(
        same, client=OuterRef("client"), week__gt=OuterRef("week"), week__lte=monday
    )
    answered = Decision.objects.filter(prompt_id=OuterRef("pk"), undone_at=None)
    rows = Prompt.objects.annotate(about=KT("proposal__exercise")).filter(
        ~Exists(answered), ~Exists(newer), week__in=(monday, monday - WEEK), last_date__gte=today
    )
    return rows.order_by("week")


# The most pressing first.
KINDS = ("deload", "swap", "contact", "hold", "progress")
TOPICS = ("deload", "swap", "contact", "hold", "variant", "progress")


def in_order(prompts: Iterable[Prompt]) -> list[Prompt]:
    """Return questions about one client, the most pressing first."""
    return sorted(prompts, key=lambda prompt: TOPICS.index(topic_of(prompt.kind, prompt.proposal)))
