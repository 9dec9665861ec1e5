from django.apps import AppConfig


class CoachingConfig(AppConfig):
    name = "coaching"

    def ready(self) -> None:
        from coaching.dispatch import on_recompute_requested
        from logbook.signals import recompute_requested

        recompute_requested.connect(on_recompute_requested, dispatch_uid="coaching.dispatch")
