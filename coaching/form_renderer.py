"""How forms are drawn: by the templates of the house, but nothing is drawn to say that a field has no errors, and a
choice is written without a template for each of its options."""

from collections.abc import Iterator, Mapping
from typing import Any

from django.forms.renderers import TemplatesSetting
from django.http import HttpRequest
from django.utils.formats import localize
from django.utils.html import conditional_escape
from django.utils.safestring import SafeString, mark_safe

OF_ERRORS = "django/forms/errors/"
SELECT = "django/forms/widgets/select.html"
OPTION = "django/forms/widgets/select_option.html"


class FormRenderer(TemplatesSetting):
    def render(self, template_name: str, context: dict[str, Any], request: HttpRequest | None = None) -> str:
        # A session page asks 150 fields for their errors.
        if template_name.startswith(OF_ERRORS) and not context["errors"]:
            return ""
        # The page of an exercise has 2,400 options, and a template for each took nine tenths of its time.
        if template_name == SELECT and _plain(context["widget"]):
            return _select(context["widget"])
        return super().render(template_name, context, request)


def _plain(widget: Mapping[str, Any]) -> bool:
    return all(one["template_name"] == OPTION for _, options, _ in widget["optgroups"] for one in options)


def _select(widget: Mapping[str, Any]) -> SafeString:
    """Write what Django's own two templates write, to the letter."""
    return mark_safe("".join(_parts(widget)))  # noqa: S308 - every part is escaped or is markup of ours


def _parts(widget: Mapping[str, Any]) -> Iterator[str]:
    yield f'<select name="{_text(widget["name"])}"{_attributes(widget["attrs"])}>'
    for group, options, _ in widget["optgroups"]:
        if group:
            yield f'\n  <optgroup label="{_text(group)}">'
        for one in options:
            value = conditional_escape(one["value"] if isinstance(one["value"], str) else str(one["value"]))
            yield f'\n  <option value="{value}"{_attributes(one["attrs"])}>{_text(one["label"])}</option>\n'
        if group:
            yield "\n  </optgroup>"
    yield "\n</select>"


def _attributes(attributes: Mapping[str, Any]) -> str:
    return "".join(
        f" {_text(name)}" if value is True else f' {_text(name)}="{conditional_escape(str(value))}"'
        for name, value in attributes.items()
        if value is not False
    )


def _text(value: object) -> str:
    """Write a value as a template does: a number as the language has it, and nothing that could be markup."""
    return conditional_escape(str(localize(value)))
