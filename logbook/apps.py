from django.apps import AppConfig


class LogbookConfig(AppConfig):
    name = "logbook"

    def ready(self) -> None:
        from accounts.audit import words
        from logbook.audit_pages import PAGES
        from logbook.receivers import on_plan_changed, on_plans_changed
        from programs.signals import plan_changed, plans_changed

        plan_changed.connect(on_plan_changed, dispatch_uid="logbook.receivers")
        plans_changed.connect(on_plans_changed, dispatch_uid="logbook.receivers.many")
        words.register(PAGES)
