from django.apps import AppConfig


class CoachingConfig(AppConfig):
    name = "coaching"

    def ready(self) -> None:
        from coaching.dispatch import on_recompute_requested
        from coaching.sentences import DESK_SENTENCES
        from logbook.signals import recompute_requested
        from programs.sentences import register

        recompute_requested.connect(on_recompute_requested, dispatch_uid="coaching.dispatch")
        register(DESK_SENTENCES)
