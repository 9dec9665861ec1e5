from django.apps import AppConfig


class CoachingConfig(AppConfig):
    name = "coaching"

    def ready(self) -> None:
        from accounts.audit import words
        from coaching.audit_pages import PAGES
        from coaching.dispatch import on_recompute_requested, on_recomputes_requested
        from coaching.long_dispatch import on_draft_requested, on_past_queued
        from coaching.reads.claims import decision_claims
        from coaching.sentences import DESK_SENTENCES
        from logbook.signals import past_queued, recompute_requested, recomputes_requested
        from programs.sentences import register
        from programs.services import revision_claims
        from programs.signals import draft_requested

        recompute_requested.connect(on_recompute_requested, dispatch_uid="coaching.dispatch")
        recomputes_requested.connect(on_recomputes_requested, dispatch_uid="coaching.dispatch.many")
        draft_requested.connect(on_draft_requested, dispatch_uid="coaching.long_dispatch.draft")
        past_queued.connect(on_past_queued, dispatch_uid="coaching.long_dispatch.past")
        register(DESK_SENTENCES)
        words.register(PAGES)
        revision_claims.register(decision_claims)
