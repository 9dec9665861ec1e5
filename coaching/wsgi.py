"""The WSGI entry point for gunicorn."""

import os

from django.core.wsgi import get_wsgi_application

from coaching.garbage import settle

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "coaching.settings")
application = get_wsgi_application()
settle()
