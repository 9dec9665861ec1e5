"""An ended copy knows when it was ended, which is what the sessions it cancelled carry."""

from django.db import migrations, models
from django.db.models import F, Max


def find_ends(apps, schema_editor):
    """The latest cancellation after the last day is the end's own; an earlier one was a pause."""
    Assignment = apps.get_model("programs", "Assignment")
    Session = apps.get_model("programs", "PlannedSession")
    after = Session.objects.filter(assignment__status="ended", date__gt=F("assignment__ended_on"))
    latest = after.exclude(cancelled_at=None).order_by().values_list("assignment").annotate(Max("cancelled_at"))
    for assignment, moment in latest:
        Assignment.objects.filter(pk=assignment).update(ended_at=moment)


class Migration(migrations.Migration):
    dependencies = [("programs", "0009_revisions")]

    operations = [
        migrations.AddField("assignment", "ended_at", models.DateTimeField(blank=True, null=True)),
        migrations.RunPython(find_ends, migrations.RunPython.noop),
    ]
