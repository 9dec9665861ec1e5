"""The coach's desk, the methods, and whether the parts answer."""

from django.urls import path

from coaching.views import board, client, decision, health, letters, methods, progress, screening, talk, why

urlpatterns = [
    path("train/progress/", progress.progress, name="progress"),
    path("week/", board.week_board, name="board"),
    path("clients/<int:client_id>/", client.client_page, name="client-page"),
    path("clients/<int:client_id>/comments/", talk.client_comments, name="client-comments"),
    path("clients/<int:client_id>/notes/", talk.client_notes, name="client-notes"),
    path("notes/<int:note_id>/", talk.note_page, name="note"),
    path("notes/<int:note_id>/remove/", talk.note_delete, name="note-remove"),
    path("clients/<int:client_id>/volume/<str:week>/<slug:group>/", why.volume, name="why-volume"),
    path("clients/<int:client_id>/strength/<uuid:session_id>/<int:exercise_id>/", why.strength, name="why-strength"),
    path("clients/<int:client_id>/targets/<int:slot_id>/why/", why.target, name="why-target"),
    path("clients/<int:client_id>/screening/", screening.client_screening, name="client-screening"),
    path("flags/<uuid:flag_id>/", why.flag, name="why-flag"),
    path("prompts/<uuid:prompt_id>/", decision.prompt_page, name="prompt"),
    path("prompts/<uuid:prompt_id>/accept/", decision.prompt_accept, name="prompt-accept"),
    path("prompts/<uuid:prompt_id>/refuse/", decision.prompt_refuse, name="prompt-refuse"),
    path("decisions/<int:decision_id>/", decision.decision_page, name="decision"),
    path("decisions/<int:decision_id>/undo/", decision.decision_take_back, name="decision-undo"),
    path("letters/stop/<str:token>/", letters.letters_stop, name="letters-stop"),
    path("methods/", methods.method_list, name="methods"),
    path("methods/<slug:topic>/", methods.method_page, name="method"),
    path("health/", health.health, name="health"),
]
