"""How forms are drawn: by the templates of the house, but no template is drawn to say that a field has no errors."""

from typing import Any

from django.forms.renderers import TemplatesSetting
from django.http import HttpRequest

OF_ERRORS = "django/forms/errors/"


class FormRenderer(TemplatesSetting):
    def render(self, template_name: str, context: dict[str, Any], request: HttpRequest | None = None) -> str:
        # A session page asks 150 fields for their errors.
        if template_name.startswith(OF_ERRORS) and not context["errors"]:
            return ""
        return super().render(template_name, context, request)
