from django.apps import AppConfig


class LogbookConfig(AppConfig):
    name = "logbook"
