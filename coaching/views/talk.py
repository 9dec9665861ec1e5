"""The desk's side of what is said: comments with the client, and notes that the client never sees."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from accounts import access
from accounts.models import Client
from coaching.forms import DeskCommentForm, NoteForm
from coaching.models import CoachNote
from coaching.services.note import note_edit, note_remove, note_write
from logbook.forms.comment_form import empty_comment
from logbook.reads.comments import thread_of
from logbook.services.comments import comment_write

NOTES_A_PAGE = 20


@login_required
@require_http_methods(["GET", "POST"])
def client_comments(request: HttpRequest, client_id: int) -> HttpResponse:
    """Show all comments with a client, latest first, and keep a new one."""
    client = access.access_client_as_coach(request.user, client_id)
    form = (
        DeskCommentForm(request.POST, label_suffix="") if request.method == "POST" else empty_comment(DeskCommentForm)
    )
    if form.is_bound and form.is_valid():
        comment_write(
            client=client,
            author=request.user,
            text=form.cleaned_data["text"],
            written_at=timezone.now(),
            id=form.cleaned_data["comment"],
            week=form.cleaned_data["week"],
        )
        messages.success(request, _("Your comment was sent."))
        week = form.cleaned_data["week"]
        page = reverse("client-page" if week else "client-comments", args=[client.pk])
        return redirect(f"{page}?week={week.isoformat()}#talk" if week else page)
    thread = thread_of(client, request.user, request.GET.get("page"))
    context = {"room": "clients", "tab": "comments", "client": client, "thread": thread, "comment_form": form}
    return render(request, "coaching/comments.html", context, status=422 if form.errors else 200)


@login_required
@require_http_methods(["GET", "POST"])
def client_notes(request: HttpRequest, client_id: int) -> HttpResponse:
    """Show the notes of the client's coaches, latest first, and keep a new one."""
    client = _not_oneself(request, client_id)
    form = NoteForm(request.POST if request.method == "POST" else None, label_suffix="")
    if form.is_bound and form.is_valid():
        note_write(client=client, author=request.user, text=form.cleaned_data["text"])
        messages.success(request, _("The note was saved."))
        return redirect("client-notes", client.pk)
    notes = CoachNote.objects.visible_to(request.user).filter(client=client).select_related("author")
    page = Paginator(notes, NOTES_A_PAGE).get_page(request.GET.get("page"))
    context = {"room": "clients", "tab": "notes", "client": client, "page": page, "form": form}
    return render(request, "coaching/notes.html", context, status=422 if form.errors else 200)


def _not_oneself(request: HttpRequest, client_id: int) -> Client:
    """Return a client whom the user coaches; 404 for an owner who looks for the notes about themselves."""
    client = access.access_client_as_coach(request.user, client_id)
    if client.user_id == request.user.pk:
        raise Http404
    return client


@login_required
@require_http_methods(["GET", "POST"])
def note_page(request: HttpRequest, note_id: int) -> HttpResponse:
    """Change one's own note."""
    note = access.access_write(CoachNote.objects.select_related("client__user"), request.user, pk=note_id)
    form = NoteForm(request.POST if request.method == "POST" else None, initial={"text": note.text}, label_suffix="")
    if form.is_bound and form.is_valid():
        note_edit(note=note, text=form.cleaned_data["text"], now=timezone.now())
        messages.success(request, _("The note was saved."))
        return redirect("client-notes", note.client_id)
    context = {"room": "clients", "tab": "notes", "client": note.client, "note": note, "form": form}
    return render(request, "coaching/note.html", context, status=422 if form.errors else 200)


@login_required
@require_POST
def note_delete(request: HttpRequest, note_id: int) -> HttpResponse:
    """Remove one's own note."""
    note = access.access_write(CoachNote.objects.select_related("client"), request.user, pk=note_id)
    note_remove(note=note)
    messages.success(request, _("The note was removed."))
    return redirect("client-notes", note.client_id)
