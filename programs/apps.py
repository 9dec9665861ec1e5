from django.apps import AppConfig


class ProgramsConfig(AppConfig):
    name = "programs"

    def ready(self) -> None:
        from accounts.audit import words
        from programs.audit_pages import PAGES

        words.register(PAGES)
