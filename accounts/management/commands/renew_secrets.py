"""Encrypt what is stored encrypted under the present secret key, so that an earlier key can be thrown away."""

from cryptography.fernet import InvalidToken
from django.core.management.base import BaseCommand, CommandError

from accounts.services.second_factor import secrets_renew


class Command(BaseCommand):
    help = "Encrypt second factors under SINEWRIGHT_SECRET_KEY: afterwards no earlier key is needed for them."

    def handle(self, *args: object, **options: object) -> None:
        try:
            renewed = secrets_renew()
        except InvalidToken as problem:
            raise CommandError(
                "A second factor was encrypted under a key that is not in SINEWRIGHT_SECRET_KEY_FALLBACKS. "
                "Nothing was changed."
            ) from problem
        self.stdout.write(f"{renewed} second factors are encrypted under the present key")
