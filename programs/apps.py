from django.apps import AppConfig


class ProgramsConfig(AppConfig):
    name = "programs"

    def ready(self) -> None:
        from accounts.audit import words
        from programs.audit_pages import PAGES
        from programs.sentences import register
        from programs.sentences_fit import FIT_SENTENCES, FIT_SINGULAR

        words.register(PAGES)
        register(FIT_SENTENCES, FIT_SINGULAR)
