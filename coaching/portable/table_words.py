"""What the rows of a table are, in words: for whoever is told what was erased."""

from django.utils.translation import gettext_lazy as _

TABLE_WORDS = {
    "account.EmailAddress": _("e-mail addresses"),
    "accounts.AuditEntry": _("entries of who saw what"),
    "accounts.Client": _("client records"),
    "accounts.Engagement": _("engagements"),
    "accounts.Invitation": _("invitations"),
    "accounts.User": _("accounts"),
    "coaching.CoachNote": _("coach's notes"),
    "coaching.Decision": _("decisions"),
    "coaching.FlagRow": _("flags"),
    "coaching.Prompt": _("prompts"),
    "coaching.StrengthPoint": _("estimates of strength"),
    "coaching.WeekSummary": _("weeks counted"),
    "coaching.WeeklyLetter": _("weekly letters"),
    "logbook.BodyMass": _("body masses"),
    "logbook.CalendarFeed": _("calendar addresses"),
    "logbook.CheckIn": _("check-ins"),
    "logbook.Clearance": _("words of clinicians"),
    "logbook.Comment": _("comments"),
    "logbook.LogImport": _("files brought in"),
    "logbook.Operation": _("entries of the phone"),
    "logbook.PainReport": _("pain reports"),
    "logbook.PastRun": _("runs of files brought in"),
    "logbook.RecomputeRequest": _("weeks to be counted"),
    "logbook.Screening": _("answers to the health questions"),
    "logbook.Session": _("sessions"),
    "logbook.SetHistory": _("earlier values of sets"),
    "logbook.SetLog": _("sets"),
    "logbook.SlotSkip": _("skipped exercises"),
    "logbook.UnreadComment": _("unread comments"),
    "programs.Adaptation": _("adaptations"),
    "programs.Assignment": _("assigned programs"),
    "programs.AssignmentRevision": _("revisions of assigned programs"),
    "programs.ClientEquipment": _("pieces of a client's equipment"),
    "programs.ClientLimit": _("limits"),
    "programs.DraftRun": _("drafts"),
    "programs.Fitting": _("fittings"),
    "programs.HandoutLink": _("links to hand-outs"),
    "programs.PlannedSession": _("planned sessions"),
    "programs.PlannedSlot": _("planned exercises"),
    "programs.SessionRevision": _("revisions of planned sessions"),
    "programs.TrialStep": _("steps of a trial"),
    "sessions.Session": _("devices signed in"),
}


def table_words(table: str) -> str:
    """Return what the rows of a table are; the table's own name where no words are known."""
    return str(TABLE_WORDS.get(table, table))
