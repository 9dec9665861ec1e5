"""Taking everything out, and erasing a client."""

from collections.abc import Iterator

from django import forms
from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse, StreamingHttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from accounts import access
from coaching.models import Erasure
from coaching.portable.table_words import table_words
from coaching.portable.write import export
from coaching.services.erase import client_erase

PER_PAGE = 25


def download(pieces: Iterator[bytes], name: str) -> StreamingHttpResponse:
    """Answer with a zip that is written while it is sent."""
    response = StreamingHttpResponse(pieces, content_type="application/zip")
    response["Content-Disposition"] = f'attachment; filename="{slugify(name) or "export"}-{timezone.localdate()}.zip"'
    response["Cache-Control"] = "no-store"
    # The pieces are small and compressed already: holding them back to compress them would stop the stream.
    response["Content-Encoding"] = "identity"
    return response


@login_required
@require_safe
def practice_data(request: HttpRequest) -> HttpResponse:
    """Tell an owner what an export holds, and list what was erased."""
    membership = access.access_membership(request.user, owner=True)
    rows = Erasure.objects.visible_to(request.user).select_related("by")
    page = Paginator(rows, PER_PAGE).get_page(request.GET.get("page"))
    context = {"room": "practice", "practice": membership.practice, "page": page}
    return render(request, "coaching/practice_data.html", context)


@login_required
@require_POST
def practice_export(request: HttpRequest) -> StreamingHttpResponse:
    """Send everything of the practice."""
    membership = access.access_membership(request.user, owner=True)
    return download(export(membership.practice), membership.practice.name)


@login_required
@require_POST
def client_export(request: HttpRequest, client_id: int) -> StreamingHttpResponse:
    """Send a coach everything of one client."""
    client = access.access_client_as_coach(request.user, client_id)
    return download(export(client.practice, client), client.user.name)


@login_required
@require_POST
def own_export(request: HttpRequest) -> StreamingHttpResponse:
    """Send a client everything of their own, but for what coaches keep for themselves."""
    client = access.access_own_client(request.user)
    return download(export(client.practice, client, for_client=True), client.user.name)


class EraseForm(forms.Form):
    """The client's name, typed: nothing brings them back."""

    name = forms.CharField(label=gettext_lazy("Type the client's name"), max_length=120)

    def __init__(self, *args: object, wanted: str, **kwargs: object) -> None:
        super().__init__(*args, **kwargs)
        self.wanted = wanted
        self.fields["name"].widget.attrs["autocomplete"] = "off"

    def clean_name(self) -> str:
        name = self.cleaned_data["name"].strip()
        if name.casefold() != self.wanted.casefold():
            raise forms.ValidationError(_("This is not the name: %(name)s") % {"name": self.wanted})
        return name


@login_required
@require_http_methods(["GET", "POST"])
def client_erasure(request: HttpRequest, client_id: int) -> HttpResponse:
    """Ask an owner for the client's name, then erase them and show the proof."""
    client = access.access_client_as_owner(request.user, client_id)
    form = EraseForm(request.POST if request.method == "POST" else None, wanted=str(client), label_suffix="")
    if request.method == "POST" and form.is_valid():
        erasure = client_erase(client=client, by=request.user)
        access.forget_opened(request.user)  # the audit must not name whom it cannot find any more
        messages.success(request, _("Erased."))
        return redirect("erasure", erasure.pk)
    context = {"room": "clients", "client": client, "form": form}
    return render(request, "coaching/client_erase.html", context, status=422 if form.errors else 200)


@login_required
@require_safe
def erasure(request: HttpRequest, erasure_id: int) -> HttpResponse:
    """Show what was removed."""
    access.access_membership(request.user, owner=True)
    row = access.access_read(Erasure.objects.select_related("by", "practice"), request.user, pk=erasure_id)
    removed = [(table_words(table), table, count) for table, count in row.counts.items()]
    return render(request, "coaching/erasure.html", {"room": "practice", "erasure": row, "removed": removed})
