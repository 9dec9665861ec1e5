"""The Celery application; its options are the CELERY_* names in settings."""

import os

from celery import Celery

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "coaching.settings")
app = Celery("sinewright")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks()
