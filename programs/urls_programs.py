"""Addresses of programs, of what is assigned from them, and of a client's targets."""

from django.urls import path

from programs.views import (
    assignment_detail,
    assignment_make,
    draft_list,
    draft_new,
    draft_run,
    handout,
    handout_links,
    handout_shared,
    program_about,
    program_change,
    program_edit,
    program_list,
    program_pick,
    program_targets,
    program_weeks,
)

urlpatterns = [
    path("programs/", program_list.program_list, name="program-list"),
    path("programs/add/", program_about.program_add, name="program-add"),
    path("programs/drafts/", draft_list.draft_list, name="draft-list"),
    path("programs/drafts/new/", draft_new.draft_new, name="draft-new"),
    path("programs/drafts/exercises/", draft_new.draft_exercises, name="draft-exercises"),
    path("programs/drafts/<int:run_id>/", draft_run.draft_detail, name="draft-detail"),
    path("programs/drafts/<int:run_id>/stop/", draft_run.draft_cancel, name="draft-stop"),
    path("programs/drafts/<int:run_id>/program/", draft_run.draft_program, name="draft-program"),
    path("programs/drafts/<int:run_id>/relax/", draft_run.draft_relax, name="draft-relax"),
    path("programs/drafts/<int:run_id>/again/", draft_run.draft_again, name="draft-again"),
    path("programs/<int:program_id>/", program_edit.program_editor, name="program-editor"),
    path("programs/<int:program_id>/change/", program_change.program_change, name="program-change"),
    path("programs/<int:program_id>/weeks/", program_weeks.program_weeks, name="program-weeks"),
    path("programs/<int:program_id>/choose/", program_pick.program_pick, name="program-pick"),
    path("programs/<int:program_id>/outlook/", program_about.program_outlook, name="program-outlook"),
    path("programs/<int:program_id>/about/", program_about.program_settings, name="program-settings"),
    path("programs/<int:program_id>/history/", program_list.program_history, name="program-history"),
    path("programs/<int:program_id>/copy/", program_about.program_duplicate, name="program-copy"),
    path("programs/<int:program_id>/archive/", program_about.program_put_away, name="program-archive"),
    path("programs/<int:program_id>/assign/", assignment_make.program_assign_page, name="program-assign"),
    path("programs/<int:program_id>/hand-out/", handout.program_handout, name="program-handout"),
    path(
        "programs/<int:program_id>/hand-out.pdf", handout.program_handout, {"file": "pdf"}, name="program-handout-pdf"
    ),
    path("assignments/<int:assignment_id>/hand-out/", handout.assignment_handout, name="assignment-handout"),
    path(
        "assignments/<int:assignment_id>/hand-out.pdf",
        handout.assignment_handout,
        {"file": "pdf"},
        name="assignment-handout-pdf",
    ),
    path("programs/<int:program_id>/links/", handout_links.program_links, name="program-handout-links"),
    path("assignments/<int:assignment_id>/links/", handout_links.assignment_links, name="assignment-handout-links"),
    path("hand-out-links/<int:link_id>/withdraw/", handout_links.handout_link_end, name="handout-link-withdraw"),
    path("hand-out/<str:token>/", handout_shared.handout_shared, name="handout-shared"),
    path("assignments/<int:assignment_id>/", assignment_detail.assignment_page, name="assignment-detail"),
    path("assignments/<int:assignment_id>/change/", assignment_detail.assignment_change, name="assignment-change"),
    path("clients/<int:client_id>/targets/", program_targets.client_targets, name="client-targets"),
]
