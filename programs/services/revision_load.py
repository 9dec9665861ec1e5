"""Read what clients follow of a program, for as many as there are in the same few queries."""

from collections.abc import Iterable, Mapping
from datetime import date

from django.db.models import Count, Prefetch, Q, QuerySet, prefetch_related_objects
from django.utils import timezone

from accounts.models import User
from programs.document import Document, document_from_json
from programs.document.adapt import adapt, start_loads
from programs.document.match import matches
from programs.models import Adaptation, Assignment, PlannedSession, PlannedSlot, Program
from programs.services.adaptations import changes_of
from programs.services.revision_plan import Following
from programs.services.revision_written import Written


def followers(user: User, program: Program) -> QuerySet[Assignment]:
    """Return the running copies of a program that clients follow whom `user` coaches."""
    return Assignment.objects.writable_by(user).filter(program=program).not_over(timezone.localdate())


def behind(user: User, program: Program) -> QuerySet[Assignment]:
    """Return those that follow an earlier version than the program is at, by the clients' names."""
    rows = followers(user, program).filter(program_version__lt=program.version)
    return rows.select_related("client__user").order_by("client__user__name", "pk")


def followed_versions(user: User, program: Program) -> list[tuple[int, int]]:
    """Return how many of the user's clients follow which version, the latest first (one query)."""
    rows = followers(user, program).order_by("-program_version").values_list("program_version")
    return list(rows.annotate(Count("pk", distinct=True)))


def since_of(assignment: Assignment) -> date:
    """Return the first day a revision may touch: the client's today, or the first day of what a pause holds back."""
    today = assignment.client.user.today()
    return min(today, assignment.paused_on) if assignment.paused_on else today


def followings(
    program: Program, assignments: Iterable[Assignment], document: Document | None = None
) -> list[Following]:
    """Return each assignment with what its revision plan is worked out from: seven queries, however many there are."""
    many = list(assignments)
    new = document or document_from_json(program.document)
    sessions = list(
        PlannedSession.objects.filter(assignment__in=many).select_related("performed").order_by("date", "pk")
    )
    earliest = min((since_of(one) for one in many), default=date.max)
    slots = Prefetch("slots", queryset=PlannedSlot.objects.order_by("position"))
    open_ones = [one for one in sessions if one.date >= earliest and getattr(one, "performed", None) is None]
    prefetch_related_objects(open_ones, slots)
    touched = set(
        PlannedSession.objects.filter(assignment__in=many, date__gte=earliest)
        .filter(Q(slots__logged__isnull=False) | Q(slots__skips__isnull=False))
        .values_list("pk", flat=True)
    ) | {one.pk for one in sessions if getattr(one, "performed", None) is not None}
    versions = {one.program_version for one in many} | {one.program_version for one in sessions} - {None}
    revisions = program.revisions.filter(version__in=versions).values_list("version", "document")
    raw = {version: document_from_json(content) for version, content in revisions}
    mapped = {version: matches(content, new) for version, content in raw.items()}
    adaptations: dict[int, list[Adaptation]] = {}
    for row in Adaptation.objects.filter(assignment__in=many, undone_at=None):
        adaptations.setdefault(row.assignment_id, []).append(row)
    by_assignment: dict[int, list[PlannedSession]] = {}
    for session in sessions:
        by_assignment.setdefault(session.assignment_id, []).append(session)
    plain = _written(raw, mapped, new, ())
    result = []
    for one in many:
        written, to = _written(raw, mapped, new, adaptations[one.pk]) if one.pk in adaptations else plain
        result.append(Following(one, by_assignment.get(one.pk, []), touched, written, to, since_of(one)))
    return result


def _written(
    raw: Mapping[int, Document], mapped: Mapping[int, Mapping[str, str]], new: Document, rows: Iterable[Adaptation]
) -> tuple[dict[int, Written], Written]:
    """Return every version, and the new one, as a client with these adaptations gets it."""
    changes = changes_of(rows)

    def made(content: Document, keys: Mapping[str, str]) -> Written:
        adapted = adapt(content, changes)
        return Written(content, adapted, keys, start_loads(adapted, changes))

    return {version: made(content, mapped[version]) for version, content in raw.items()}, made(new, {})
