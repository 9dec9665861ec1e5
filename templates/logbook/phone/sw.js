{% load static %}import { startWorker } from "{% static "logbook/offline/worker.js" %}";

startWorker(self, {{ kept|safe }});
