"""Planned sessions and slots carry the keys of the document they came from; rows that are there get them, where the
version they were copied from is kept and still says the same."""

from django.db import migrations, models


def name_origins(apps, schema_editor):
    Assignment = apps.get_model("programs", "Assignment")
    Revision = apps.get_model("programs", "ProgramRevision")
    Session = apps.get_model("programs", "PlannedSession")
    Slot = apps.get_model("programs", "PlannedSlot")
    known = None, {}
    for assignment in Assignment.objects.exclude(program=None).order_by("program_id", "program_version").iterator():
        origin = (assignment.program_id, assignment.program_version)
        if known[0] != origin:
            revision = Revision.objects.filter(program_id=origin[0], version=origin[1]).first()
            known = origin, days_by_number(revision.document) if revision else {}
        sessions, slots = [], []
        for session in Session.objects.filter(assignment=assignment).prefetch_related("slots"):
            found = known[1].get((session.block_number, session.week_number, session.day_number))
            if found is None:
                continue
            week, day = found
            session.week_key, session.day_key, session.program_version = week["key"], day["key"], origin[1]
            sessions.append(session)
            rows = sorted(session.slots.all(), key=lambda row: row.position)
            # Decisions change sets and effort in place, never which slots there are.
            if len(rows) == len(day["slots"]):
                for row, written in zip(rows, day["slots"], strict=True):
                    row.slot_key = written["key"]
                    slots.append(row)
        Session.objects.bulk_update(sessions, ["week_key", "day_key", "program_version"], batch_size=200)
        Slot.objects.bulk_update(slots, ["slot_key"], batch_size=200)


def days_by_number(document):
    return {
        (b, w, d): (week, day)
        for b, block in enumerate(document.get("blocks", []), 1)
        for w, week in enumerate(block.get("weeks", []), 1)
        for d, day in enumerate(week.get("days", []), 1)
    }


def key():
    return models.CharField(blank=True, default="", max_length=24)


class Migration(migrations.Migration):
    dependencies = [("programs", "0002_limits")]

    operations = [
        migrations.AddField("plannedsession", "day_key", key()),
        migrations.AddField("plannedsession", "program_version", models.PositiveIntegerField(blank=True, null=True)),
        migrations.AddField("plannedsession", "week_key", key()),
        migrations.AddField("plannedslot", "slot_key", key()),
        migrations.RunPython(name_origins, migrations.RunPython.noop),
    ]
