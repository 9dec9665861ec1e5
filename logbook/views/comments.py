"""Comments between client and coaches: the client's page of them, and what both do with them."""

import uuid

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from accounts import access
from logbook.forms.comment_form import CommentForm, empty_comment
from logbook.models import Comment
from logbook.reads.comments import COMMENTS_A_PAGE, thread_of
from logbook.services.comments import comment_take_back, comments_read


@login_required
@require_http_methods(["GET", "POST"])
def comments(request: HttpRequest) -> HttpResponse:
    """Show the client all comments, latest first, and keep a new one about nothing in particular."""
    client = access.access_own_client(request.user)
    form = CommentForm(request.POST, label_suffix="") if request.method == "POST" else empty_comment()
    if form.is_bound and form.is_valid() and form.save(client):
        messages.success(request, _("Your comment was sent."))
        return redirect("comments")
    thread = thread_of(client, request.user, request.GET.get("page"))
    context = {"room": "today", "client": client, "thread": thread, "comment_form": form}
    return render(request, "logbook/comments.html", context, status=422 if form.errors else 200)


@login_required
@require_POST
def comments_seen(request: HttpRequest) -> HttpResponse:
    """Drop the reader's marks of the comments named; nothing else is touched, and nothing is told about them."""
    ids = []
    for text in request.POST.getlist("comment")[:COMMENTS_A_PAGE]:
        try:
            ids.append(uuid.UUID(text))
        except ValueError:
            continue
    comments_read(reader=request.user, ids=ids)
    return _back(request)


@login_required
@require_POST
def take_back(request: HttpRequest, comment_id: uuid.UUID) -> HttpResponse:
    """Remove the text of one's own comment."""
    comment = access.access_write(Comment.objects.all(), request.user, pk=comment_id)
    comment_take_back(comment=comment, now=timezone.now())
    messages.success(request, _("Your comment was taken back."))
    return _back(request)


def _back(request: HttpRequest) -> HttpResponse:
    """Return to the page the form was on, as long as it is one of ours."""
    page = request.POST.get("next", "")
    ours = url_has_allowed_host_and_scheme(page, {request.get_host()}, require_https=request.is_secure())
    return redirect(page if ours else "home")
