"""The Celery application; its options are the CELERY_* names in settings."""

import os

from celery import Celery
from celery.signals import celeryd_init

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "coaching.settings")
app = Celery("sinewright")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks()


@celeryd_init.connect(weak=False)
def on_worker_begins(**kwargs: object) -> None:
    """Once it is sure that this process is a worker, and Django is set up."""
    from coaching import listening

    listening.connect()
