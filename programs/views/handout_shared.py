"""What whoever has a link sees. No name of a coach, no note for coaches; a client's name only where it was chosen."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.cache import patch_cache_control
from django.views.decorators.http import require_safe

from accounts.misses import count_miss, too_many_misses
from programs.handout.build import build_handout
from programs.handout.options import stored_options
from programs.handout.source import Source, source_of_assignment, source_of_revision
from programs.models import HandoutLink, ProgramRevision
from programs.services.handout_links import handout_link_open

# Nobody guesses 256 bits; the limit keeps whoever tries from asking the database all day. Misses only are counted, so
# a gym behind one address can open as many links as it likes.
GUESSING = "handout-link"


@require_safe
def handout_shared(request: HttpRequest, token: str) -> HttpResponse:
    """Show the hand-out behind a link.

    SECURITY: the secret in the address is the permission here; `handout_link_open` asks the access module whether the
    link's maker may still see it. A link that is unknown, expired or withdrawn gets one and the same answer.
    """
    if too_many_misses(request, GUESSING):
        return _private(render(request, "programs/handout_gone.html", {"too_often": True}, status=429))
    link = handout_link_open(token=token)
    source = _source(link) if link else None
    if link is None or source is None:
        count_miss(request, GUESSING)
        return _private(render(request, "programs/handout_gone.html", status=404))
    options = stored_options(link.options, len(source.weeks()))
    owner = link.program or link.assignment.client
    client = str(link.assignment.client) if link.assignment else ""
    handout = build_handout(source, options, owner.practice, client=client)
    context = {"handout": handout, "expires_at": link.expires_at}
    return _private(render(request, "programs/handout_shared.html", context))


def _source(link: HandoutLink) -> Source | None:
    if link.assignment:
        return source_of_assignment(link.assignment)
    rows = ProgramRevision.objects.select_related("program").filter(program=link.program, version=link.program_version)
    revision = rows.first()
    return source_of_revision(revision) if revision else None


def _private(answer: HttpResponse) -> HttpResponse:
    """Keep the address out of search engines, of other sites' logs, and of caches."""
    answer["X-Robots-Tag"] = "noindex, nofollow, noarchive"
    answer["Referrer-Policy"] = "no-referrer"
    patch_cache_control(answer, private=True, no_store=True)
    return answer
