"""Static files in production: named by their content, compressed, and the imports of scripts named likewise."""

from django.contrib.staticfiles.storage import ManifestStaticFilesStorage
from whitenoise.storage import CompressedManifestStaticFilesStorage

_, IMPORTS = ManifestStaticFilesStorage._js_module_import_aggregation_patterns
# Scripts of installed packages are left as they are: one of them imports by a name that only a bundler understands.
ROOMS = ("accounts", "coaching", "logbook", "programs", "vendor/idb")


class StaticStorage(CompressedManifestStaticFilesStorage):
    """A module that imports `./outbox.js` must import the outbox of its own release, not one that a cache still has."""

    patterns = (*ManifestStaticFilesStorage.patterns, *((f"{room}/*.js", IMPORTS) for room in ROOMS))
    # A chain of imports settles one link a pass.
    max_post_process_passes = 12
