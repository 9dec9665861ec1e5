"""What a start needs before anything serves: the tables and the library."""

from django.core.management import call_command
from django.core.management.base import BaseCommand


class Command(BaseCommand):
    help = "Migrate the database and load the exercise library. Safe to run at every start."

    def handle(self, *args: object, **options: object) -> None:
        call_command("migrate", interactive=False, verbosity=1)
        call_command("load_library")
