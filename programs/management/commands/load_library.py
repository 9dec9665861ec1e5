"""Load the exercise library that comes with the program."""

from django.core.management.base import BaseCommand, CommandError

from programs.services.library_load import library_load
from programs.services.library_read import read_library


class Command(BaseCommand):
    help = "Load or refresh the exercise library (repeatable; a practice's own exercises are left alone)."

    def handle(self, *args: object, **options: object) -> None:
        try:
            data = read_library()
        except ValueError as error:
            raise CommandError(f"The library's files have faults:\n{error}") from error
        self.stdout.write(f"{library_load(data)} exercises in the library.")
