"""The coach's desk, the methods, and whether the parts answer."""

from django.urls import path

from coaching.views import (
    board,
    client,
    client_plots,
    decision,
    health,
    letters,
    methods,
    progress,
    screening,
    talk,
    why,
)

urlpatterns = [
    path("train/progress/", progress.progress, name="progress"),
    path("train/progress/<slug:name>.csv", progress.progress_file, name="progress-file"),
    path("week/", board.week_board, name="board"),
    path("clients/<int:client_id>/", client.client_page, name="client-page"),
    path("clients/<int:client_id>/volume/", client_plots.client_volume, name="client-volume"),
    path("clients/<int:client_id>/strength/", client_plots.client_strength, name="client-strength"),
    path("clients/<int:client_id>/sessions/", client_plots.client_sessions, name="client-sessions"),
    path("clients/<int:client_id>/well-being/", client_plots.client_well_being, name="client-well-being"),
    path("clients/<int:client_id>/decisions/", client.client_decisions, name="client-decisions"),
    path("clients/<int:client_id>/plots/<slug:name>.csv", client_plots.client_plot_file, name="client-plot-file"),
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
