"""What an export holds: its tables, in an order in which what is pointed at comes first."""

from dataclasses import dataclass
from typing import Any

from django.db.models import Model, Q, QuerySet

from accounts.models import Client, Cover, Engagement, Membership, Practice, User
from coaching.models import CoachNote, Decision, FlagRow, Prompt, StrengthPoint, WeekSummary
from logbook.models import (
    BodyMass,
    CheckIn,
    Clearance,
    Comment,
    LogImport,
    PainReport,
    Screening,
    Session,
    SetHistory,
    SetLog,
    SlotSkip,
)
from programs.models import (
    Adaptation,
    Assignment,
    AssignmentRevision,
    ClientEquipment,
    ClientLimit,
    Equipment,
    Exercise,
    ExerciseLink,
    ExerciseReference,
    GradeOverride,
    HeadCredit,
    PlannedSession,
    PlannedSlot,
    Program,
    ProgramRevision,
    SessionRevision,
)


@dataclass(frozen=True)
class Table:
    """`to_client` leads from a row to its client, `to_practice` to its practice.

    Without the former a table belongs to the practice alone and is left out of a client's export. `derived`: the worker
    makes it anew, so it is not read back. `not_for_client`: what coaches keep for themselves.
    """

    name: str
    model: type[Model]
    to_client: str | None = None
    to_practice: str = ""
    left_out: frozenset[str] = frozenset()
    derived: bool = False
    not_for_client: bool = False
    order: tuple[str, ...] = ("pk",)

    def rows(self, practice: Practice, client: Client | None) -> QuerySet[Any]:
        """Return the rows of one client, or of the whole practice, in an order that a rebuild keeps."""
        if client is not None:
            found = self.model._base_manager.filter(**{self.to_client or "pk": client.pk})
        else:
            path = f"{self.to_client}__practice" if self.to_client and self.model is not Client else self.to_practice
            found = self.model._base_manager.filter(**{path or "practice": practice})
        return found.order_by(*self.order)


def of_practice(name: str, model: type[Model], path: str = "practice", **fields: Any) -> Table:
    return Table(name, model, to_practice=path, **fields)


def of_client(name: str, model: type[Model], path: str = "client", **fields: Any) -> Table:
    return Table(name, model, to_client=path, **fields)


# Rights and secrets are left out: whoever reads an export must not be able to sign in with it.
SECRET = frozenset({"password", "last_login", "session_epoch", "is_active", "date_joined", "weekly_letter"})
# Of a worker that is at work: it is none in another database.
AT_WORK = frozenset({"recompute_by"})
INPUTS = frozenset({"id", "inputs", "rules", "questions"})

PEOPLE = Table("people", User, left_out=SECRET)
TABLES: tuple[Table, ...] = (
    of_practice("coaches", Membership),
    of_client("clients", Client, "pk", to_practice="practice", left_out=AT_WORK),
    of_practice("covers", Cover),
    of_client("engagements", Engagement),
    of_practice("equipment", Equipment),
    of_practice("exercises", Exercise),
    of_practice("exercise_credits", HeadCredit, "exercise__practice"),
    of_practice("exercise_links", ExerciseLink, "exercise__practice"),
    of_practice("exercise_references", ExerciseReference, "exercise__practice"),
    of_practice("own_grades", GradeOverride),
    of_practice("programs", Program),
    of_practice("program_revisions", ProgramRevision, "program__practice"),
    of_client("limits", ClientLimit),
    of_client("client_equipment", ClientEquipment),
    of_client("plans", Assignment, left_out=frozenset({"fitting"})),
    of_client("plan_adaptations", Adaptation),
    of_client("planned_sessions", PlannedSession),
    of_client("planned_slots", PlannedSlot, "session__client", left_out=frozenset({"target_reason"})),
    of_client("plan_revisions", AssignmentRevision, "assignment__client"),
    of_client("plan_revision_sessions", SessionRevision, "revision__assignment__client"),
    of_client("log_imports", LogImport),
    of_client("sessions", Session),
    of_client("sets", SetLog),
    of_client("set_history", SetHistory, "set__client"),
    of_client("skipped_exercises", SlotSkip),
    of_client("check_ins", CheckIn),
    of_client("body_mass", BodyMass),
    of_client("pain_reports", PainReport),
    of_client("screenings", Screening),
    of_client("clearances", Clearance),
    of_client("comments", Comment),
    of_client("decisions", Decision),
    of_client("coach_notes", CoachNote, not_for_client=True),
    of_client("weeks", WeekSummary, left_out=INPUTS, derived=True, order=("client", "week")),
    of_client("strength", StrengthPoint, left_out=INPUTS, derived=True, order=("client", "date", "exercise")),
    of_client("flags", FlagRow, left_out=INPUTS, derived=True, order=("client", "week", "rule_id", "subject")),
    of_client("questions", Prompt, left_out=INPUTS | {"proposal"}, derived=True, order=("client", "week", "kind")),
)
BY_MODEL = {table.model: table for table in TABLES}

# Models that no export holds, each with its reason; a test demands that every model stands here or above.
NOT_EXPORTED = {
    "accounts.AuditEntry": "who looked at what stays with the practice that was looked at",
    "accounts.Invitation": "links that were sent to people",
    "accounts.Practice": "its name and zone stand in the manifest",
    "accounts.User": "the table of people, without what opens an account",
    "coaching.Erasure": "that somebody was erased",
    "coaching.SavedView": "how a coach likes to sift the week",
    "coaching.WeeklyLetter": "which letters went out",
    "logbook.CalendarFeed": "a secret address",
    "logbook.Operation": "what makes a phone's replays harmless",
    "logbook.PastRun": "tables on their way into the log, which go with the client; what became of them are imports",
    "logbook.RecomputeRequest": "work of the worker",
    "logbook.UnreadComment": "what somebody has not read yet",
    "programs.DraftRun": "requests for drafts; what became of them are programs",
    "programs.Fitting": "proposals for an assignment that is being made",
    "programs.HandoutLink": "secret addresses",
    "programs.TrialStep": "a trial that is kept or dropped",
}


def tables_for(client: Client | None, *, for_client: bool) -> list[Table]:
    """Return the tables of an export: all for a practice; for a client those with their rows."""
    chosen = [table for table in TABLES if client is None or table.to_client]
    return [table for table in chosen if not (for_client and table.not_for_client)]


def people_of(practice: Practice, client: Client | None) -> QuerySet[User]:
    """Return whose names an export mentions."""
    if client is None:
        mentioned = Q(memberships__practice=practice) | Q(client__practice=practice)
    else:
        mentioned = Q(pk=client.user_id) | Q(memberships__engagements__client=client)
    return User.objects.filter(mentioned).distinct().order_by("email")
