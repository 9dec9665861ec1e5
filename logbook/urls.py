"""Addresses of the logbook: the phone's pages under /train/, its API under /api/v1/."""

from django.urls import include, path

from logbook.views import calendar, check_in, comments, done, past, phone, screening, session, session_acts, sets, today

urlpatterns = [
    path("api/v1/", include("logbook.api.urls")),
    path("sw.js", phone.service_worker, name="service-worker"),
    path("manifest.webmanifest", phone.manifest, name="manifest"),
    path("train/phone/", phone.on_this_phone, name="on-this-phone"),
    path("train/phone/pages/", phone.pages, name="kept-pages"),
    path("train/", today.today, name="today"),
    path("train/plan/", today.plan, name="plan"),
    path("train/calendar/", calendar.calendar, name="calendar"),
    path("calendar/<str:token>.ics", calendar.calendar_feed, name="calendar-feed"),
    path("train/check-in/", check_in.check_in, name="check-in"),
    path("train/screening/", screening.screening, name="screening"),
    path("train/body-mass/", session_acts.body_mass, name="body-mass"),
    path("train/planned/<int:planned_id>/", session.planned_session, name="planned-session"),
    path("train/session/unplanned/", session_acts.session_unplanned, name="session-unplanned"),
    path("train/session/<uuid:session_id>/", session.session_page, name="session-page"),
    path("train/session/<uuid:session_id>/set/", sets.set_log, name="set-log"),
    path("train/session/<uuid:session_id>/skip/", session_acts.slot_skip, name="slot-skip"),
    path("train/session/<uuid:session_id>/note/", session_acts.session_note, name="session-note"),
    path("train/session/<uuid:session_id>/pain/", session_acts.pain_report, name="pain-report"),
    path("train/session/<uuid:session_id>/finish/", session_acts.session_finish, name="session-finish"),
    path("train/session/<uuid:session_id>/discard/", session_acts.session_discard, name="session-discard"),
    path("train/session/<uuid:session_id>/add/", session_acts.session_add, name="session-add"),
    path("train/set/<uuid:set_id>/", sets.set_page, name="set-page"),
    path("train/set/<uuid:set_id>/delete/", sets.set_delete, name="set-delete"),
    path("train/done/", done.history, name="history"),
    path("train/done/<uuid:session_id>/", done.performed_session, name="performed-session"),
    path("train/done/<uuid:session_id>/comment/", done.session_comment, name="session-comment"),
    path("clients/<int:client_id>/past/", past.client_past, name="client-past"),
    path("you/past/", past.own_past, name="own-past"),
    path("past/<uuid:import_id>/take-back/", past.past_back, name="past-take-back"),
    path("past/template/<str:layout>.<str:kind>", past.past_template, name="past-template"),
    path("train/comments/", comments.comments, name="comments"),
    path("comments/seen/", comments.comments_seen, name="comments-seen"),
    path("comments/<uuid:comment_id>/take-back/", comments.take_back, name="comment-take-back"),
]
