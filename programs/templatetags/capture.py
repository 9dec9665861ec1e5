"""Draw a part of a page once, and write it in many places."""

from typing import Any

from django import template
from django.template.base import NodeList, Parser, Token
from django.template.context import Context

register = template.Library()


class CaptureNode(template.Node):
    def __init__(self, name: str, nodelist: NodeList) -> None:
        self.name = name
        self.nodelist = nodelist

    def render(self, context: Context) -> str:
        context[self.name] = self.nodelist.render(context)
        return ""


@register.tag
def capture(parser: Parser, token: Token) -> Any:
    """Keep what stands up to `endcapture` under a name, as it is drawn here: `{% capture hidden %}...`."""
    try:
        _tag, name = token.split_contents()
    except ValueError as error:
        raise template.TemplateSyntaxError("capture takes one name.") from error
    nodelist = parser.parse(("endcapture",))
    parser.delete_first_token()
    return CaptureNode(name, nodelist)
