"""The client's calendar address, and what it answers."""

from django import forms
from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_safe

from accounts import access
from logbook.calendar.write import calendar_of
from logbook.models import CalendarFeed
from logbook.services.calendar import calendar_close, calendar_open, calendar_renew


class CalendarForm(forms.Form):
    starts_at = forms.TimeField(
        label=gettext_lazy("When do you usually train?"),
        required=False,
        help_text=gettext_lazy("Empty: sessions stand at the head of the day and block no time."),
        widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M"),
    )


@login_required
@require_http_methods(["GET", "POST"])
def calendar(request: HttpRequest) -> HttpResponse:
    """Show the address, and let the client make, change, renew or close it."""
    client = access.access_own_client(request.user)
    feed = CalendarFeed.objects.filter(client=client).first()
    initial = {"starts_at": feed.starts_at} if feed else {}
    form = CalendarForm(request.POST if request.method == "POST" else None, initial=initial, label_suffix="")
    if request.method == "POST":
        if "renew" in request.POST:
            calendar_renew(client=client)
            messages.success(request, _("The address is new. Enter it in your calendar; the old one is dead."))
            return redirect("calendar")
        if "close" in request.POST:
            calendar_close(client=client)
            messages.success(request, _("The address is closed."))
            return redirect("calendar")
        if form.is_valid():
            calendar_open(client=client, starts_at=form.cleaned_data["starts_at"])
            messages.success(request, _("Saved."))
            return redirect("calendar")
    link = request.build_absolute_uri(reverse("calendar-feed", args=[feed.token])) if feed else ""
    context = {"room": "plan", "feed": feed, "form": form, "link": link, "subscribe": "webcal" + link[link.find(":") :]}
    return render(request, "logbook/calendar.html", context, status=422 if form.errors else 200)


@never_cache
@require_safe
def calendar_feed(request: HttpRequest, token: str) -> HttpResponse:
    """Answer whoever has the address: it is the only key, since calendars cannot sign in."""
    feed = CalendarFeed.of_token(token)
    if feed is None:
        raise Http404
    body = calendar_of(feed, now=timezone.now(), address=request.build_absolute_uri("/").rstrip("/"))
    response = HttpResponse(body, content_type="text/calendar; charset=utf-8")
    response["Content-Disposition"] = 'inline; filename="training.ics"'
    response["X-Robots-Tag"] = "noindex"
    return response
