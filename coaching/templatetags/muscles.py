"""A muscle group of the board in one line: name, scale, sets and range."""

from functools import lru_cache

from django import template
from django.template.defaultfilters import floatformat
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from coaching.reads.week_row import GroupRow
from programs.templatetags.scale import range_scale

register = template.Library()
# Put together here rather than in a template: a page of the board holds five hundred of them.
LINE = (
    '<li data-why-at="{at}"><span>{name}</span>{scale}<span class="num"><a class="why" data-why="shown" href="{at}">'
    '{shown}<span class="sr-only">, {why}</span></a> <span class="quiet" data-why="{of}">{range}</span></span></li>'
)


@lru_cache(maxsize=4096)
def _figure(value: float, _language: str | None) -> str:
    """Return `floatformat` of a number of sets; the same few stand on every board."""
    return floatformat(value)


def figure_of(value: float) -> str:
    return _figure(value, get_language())


@register.simple_tag
def muscle_line(group: GroupRow, volumes: str) -> SafeString:
    """Return the list item of a group; `volumes` is the address under which the answers to its numbers stand."""
    scale, of, words = "", "", ""
    if group.floor is not None and group.ceiling is not None:
        scale = range_scale(group.shown, group.floor, group.ceiling, group.planned)
    if group.ceiling:
        of, words = "ceiling", _("of up to %(ceiling)s") % {"ceiling": figure_of(group.ceiling)}
    if group.floor and group.ceiling:
        of = "floor ceiling"
        words = _("of %(floor)s–%(ceiling)s") % {"floor": figure_of(group.floor), "ceiling": figure_of(group.ceiling)}
    return format_html(
        LINE,
        at=f"{volumes}{group.slug}/",
        name=group.name,
        scale=scale,
        shown=figure_of(group.shown),
        why=_("why"),
        of=of,
        range=words,
    )


@register.simple_tag
def muscle_lines(groups: list[GroupRow], volumes: str) -> SafeString:
    """Return the list items of several groups."""
    return mark_safe("".join(muscle_line(group, volumes) for group in groups))  # noqa: S308 - each is escaped above
