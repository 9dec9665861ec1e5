"""The WSGI entry point for gunicorn."""

import gc
import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "coaching.settings")
application = get_wsgi_application()
# What was loaded so far stays for good: to look through it again and again for garbage would hold up a request by tens
# of milliseconds now and then.
gc.collect()
gc.freeze()
