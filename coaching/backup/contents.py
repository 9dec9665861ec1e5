"""What a backup holds, and what it leaves out."""

import hashlib
import hmac

from django.apps import apps
from django.conf import settings
from django.core.serializers import sort_dependencies
from django.db import connection
from django.db.migrations.recorder import MigrationRecorder
from django.db.models import Model

FORMAT = 1
# Made anew by migrations (content types, permissions), or worth nothing after a restore (sign-ins and their failures).
LEFT_OUT = {"contenttypes", "sessions", "axes", "auth"}


def kept_models() -> list[type[Model]]:
    """Every model whose rows are kept, what is pointed at before what points."""
    configs = [(config, None) for config in apps.get_app_configs() if config.label not in LEFT_OUT]
    return [model for model in sort_dependencies(configs, allow_cycles=True) if model._meta.managed]


def migrations() -> list[str]:
    """The migrations that made the tables of this database; a backup fits only the very same tables."""
    labels = {model._meta.app_label for model in kept_models()}
    applied = MigrationRecorder(connection).applied_migrations()
    return sorted(f"{app}.{name}" for app, name in applied if app in labels)


def key_print() -> str:
    """A print of the secret key that tells two keys apart and gives neither away."""
    return hmac.new(settings.SECRET_KEY.encode(), b"sinewright backup", hashlib.sha256).hexdigest()[:16]
