from django.db import migrations


def link_copies(apps, schema_editor):
    """Give the copies made before the link was kept their fitting: of the same program, for one of its clients, made
    between its beginning and its assigning. Of two that overlap the one that was assigned first takes its own."""
    fittings = apps.get_model('programs', 'Fitting').objects
    copies = apps.get_model('programs', 'Assignment').objects
    for fitting in fittings.exclude(assigned_at=None).order_by('assigned_at', 'pk'):
        copies.filter(
            fitting=None,
            program=fitting.program_id,
            client__in=fitting.clients.values('pk'),
            created_at__range=(fitting.created_at, fitting.assigned_at),
        ).update(fitting=fitting)


class Migration(migrations.Migration):

    dependencies = [
        ('programs', '0014_fitted_by'),
    ]

    operations = [
        migrations.RunPython(link_copies, migrations.RunPython.noop),
    ]
