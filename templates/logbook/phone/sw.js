{% load static %}import { startWorker } from "{% static "logbook/offline/worker.js" %}";

startWorker(self, {
  release: "{{ release|escapejs }}",
  start: "{{ start|escapejs }}",
  files: [{% for file in files %}
    "{{ file|escapejs }}",{% endfor %}
  ],
});
