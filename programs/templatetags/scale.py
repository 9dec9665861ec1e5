"""A number against its target: a short scale with the target range bracketed."""

from typing import Any

from django import template

register = template.Library()

WIDTH = 120.0
ROOM = 1.35  # the scale runs a third past the ceiling, so that 'over' has somewhere to stand


@register.inclusion_tag("partials/scale.html")
def range_scale(done: float, floor: float, ceiling: float, planned: float | None = None) -> dict[str, Any]:
    """Place `done` (and `planned`) on a scale of 120 units with floor and ceiling bracketed; off-scale values stop at
    the end. The numbers must also stand beside it as text: the picture is hidden from screen readers."""
    top = max(ceiling * ROOM, 1.0)

    def x(value: float) -> float:
        return round(min(max(value, 0.0), top) / top * WIDTH, 1)

    return {
        "done": x(done),
        "floor": x(floor),
        "ceiling": x(ceiling),
        "planned": None if planned is None else x(planned),
        "outside": not floor <= done <= ceiling,
        "width": WIDTH,
    }
