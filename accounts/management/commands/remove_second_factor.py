"""Let in who has lost both the app and the recovery codes."""

from django.core.management.base import BaseCommand, CommandError, CommandParser

from accounts.models import User
from accounts.services.second_factor import second_factor_remove


class Command(BaseCommand):
    help = (
        "Remove a person's second factor and sign them out everywhere. Be sure first that it is them who asks: "
        "afterwards the password alone opens the account."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("email")

    def handle(self, *args: object, email: str, **options: object) -> None:
        user = User.objects.filter(email__iexact=email).first()
        if user is None:
            raise CommandError(f"Nobody has the address {email}.")
        if not second_factor_remove(user=user):
            raise CommandError(f"{user.email} has no second factor.")
        self.stdout.write(f"{user.email} signs in with the password alone now, and should set up a new second factor.")
