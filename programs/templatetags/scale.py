"""A number against its target: a short scale with the target range bracketed."""

from django import template
from django.utils.safestring import SafeString, mark_safe

register = template.Library()

WIDTH = 120.0
ROOM = 1.35  # the scale runs a third past the ceiling, so that 'over' has somewhere to stand
# Numbers alone go in. Put together here rather than in a template, since a board holds hundreds.
SCALE = (
    f'<svg class="scale{{outside}}" viewBox="0 0 {WIDTH} 18" aria-hidden="true" focusable="false">'
    f'<path class="axis" d="M0 9.5H{WIDTH}"/>'
    '<path class="bracket" d="M{floor} 5v-3h4M{floor} 13v3h4M{ceiling} 5v-3h-4M{ceiling} 13v3h-4M{floor} 2v14'
    'M{ceiling} 2v14"/>{planned}<rect class="done" x="0" y="8" width="{done}" height="3"/></svg>'
)


@register.simple_tag
def range_scale(done: float, floor: float, ceiling: float, planned: float | None = None) -> SafeString:
    """Place `done` (and `planned`) on a scale of 120 units with floor and ceiling bracketed; off-scale values stop at
    the end. The numbers must also stand beside it as text: the picture is hidden from screen readers."""
    top = max(ceiling * ROOM, 1.0)

    def x(value: float) -> float:
        return round(min(max(value, 0.0), top) / top * WIDTH, 1)

    drawn = SCALE.format(
        outside="" if floor <= done <= ceiling else " outside",
        floor=x(floor),
        ceiling=x(ceiling),
        done=x(done),
        planned="" if planned is None else f'<circle class="planned" cx="{x(planned)}" cy="9.5" r="3.2"/>',
    )
    return mark_safe(drawn)  # noqa: S308 - figures of our own, no text of anyone's
