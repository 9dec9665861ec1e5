# Two stages: wheels are built where a compiler may be, and run where none is.
FROM python:3.11-slim-bookworm AS build
WORKDIR /build
COPY requirements.txt .
RUN python -m venv /venv && /venv/bin/pip install --no-cache-dir --disable-pip-version-check -r requirements.txt

FROM python:3.11-slim-bookworm
# Pango draws the text of hand-outs as PDF.
RUN apt-get update && apt-get install -y --no-install-recommends libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 \
    && rm -rf /var/lib/apt/lists/*
RUN useradd --system --uid 10001 --create-home --home-dir /var/lib/sinewright sinewright
COPY --from=build /venv /venv
WORKDIR /app
COPY --chown=root:root accounts accounts
COPY --chown=root:root coaching coaching
COPY --chown=root:root demo demo
COPY --chown=root:root docs docs
COPY --chown=root:root locale locale
COPY --chown=root:root logbook logbook
COPY --chown=root:root periodization periodization
COPY --chown=root:root programs programs
COPY --chown=root:root static static
COPY --chown=root:root templates templates
COPY --chown=root:root manage.py CHANGELOG.md ./
ENV PATH=/venv/bin:$PATH \
    PYTHONUNBUFFERED=1 \
    PYTHONDONTWRITEBYTECODE=1 \
    SINEWRIGHT_MODE=production \
    SINEWRIGHT_DATA_DIR=/var/lib/sinewright \
    SINEWRIGHT_STATIC_ROOT=/app/staticfiles
# A key is demanded in production; the one used here only lets collectstatic start and is not kept.
RUN SINEWRIGHT_SECRET_KEY=only-for-collecting-static-files-at-build python manage.py collectstatic --noinput
USER sinewright
EXPOSE 8000
CMD ["gunicorn", "coaching.wsgi", "--bind", "0.0.0.0:8000", "--workers", "2", "--threads", "4", "--access-logfile", "-"]
