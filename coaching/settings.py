"""Django settings. Everything an operator may change comes from SINEWRIGHT_* variables (.env.example lists them)."""

import secrets
from pathlib import Path

import dj_database_url
from csp.constants import NONE, SELF
from django.core.exceptions import ImproperlyConfigured
from kombu import Queue

from accounts import languages
from coaching import env
from periodization.strength import FORMULAS

BASE_DIR = Path(__file__).resolve().parent.parent
DATA_DIR = Path(env.text("DATA_DIR", str(BASE_DIR / "var")))
MODE = env.choice("MODE", "local", ("local", "production"))
PRODUCTION = MODE == "production"
DEBUG = env.boolean("DEBUG", False)
if PRODUCTION and DEBUG:
    raise ImproperlyConfigured("SINEWRIGHT_DEBUG must be false when SINEWRIGHT_MODE is production.")


def local_secret_key() -> str:
    """Return this data folder's own key, made on the first start, so that a trial needs no set-up."""
    path = DATA_DIR / "secret_key"
    if not path.exists():
        DATA_DIR.mkdir(parents=True, exist_ok=True)
        path.write_text(secrets.token_urlsafe(50), encoding="utf-8")
        path.chmod(0o600)
    return path.read_text(encoding="utf-8").strip()


SECRET_KEY = env.text("SECRET_KEY") if PRODUCTION else env.text("SECRET_KEY", "") or local_secret_key()
if PRODUCTION and len(SECRET_KEY) < 32:
    raise ImproperlyConfigured("SINEWRIGHT_SECRET_KEY must have at least 32 characters in production.")
# After a change of the key: the keys before it, or second factors and running sessions would be void at once.
SECRET_KEY_FALLBACKS = env.words("SECRET_KEY_FALLBACKS", "")
ALLOWED_HOSTS = env.words("ALLOWED_HOSTS", "127.0.0.1,localhost,[::1]")
BASE_URL = env.text("BASE_URL", "http://127.0.0.1:8000").rstrip("/")
CSRF_TRUSTED_ORIGINS = [BASE_URL]

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.humanize",
    "django.contrib.messages",
    "django.contrib.sessions",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django.forms",
    "allauth",
    "allauth.account",
    "allauth.mfa",
    "axes",
    "csp",
    "django_htmx",
    "drf_spectacular",
    "rest_framework",
    "template_partials",
    "accounts",
    "programs",
    "logbook",
    "coaching",
    "demo",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    # Pages for a phone with a bad signal; it pads the answer at random, and CSRF tokens are masked (BREACH).
    "django.middleware.gzip.GZipMiddleware",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.locale.LocaleMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "accounts.dead_ends.SignedOutMiddleware",
    "accounts.dead_ends.RefusedMethodMiddleware",
    "allauth.account.middleware.AccountMiddleware",
    "accounts.middleware.PersonZoneMiddleware",
    "accounts.middleware.PersonLanguageMiddleware",
    "accounts.middleware.CoachMfaMiddleware",
    "accounts.audit.middleware.AuditMiddleware",
    "axes.middleware.AxesMiddleware",
]
ROOT_URLCONF = "coaching.urls"
WSGI_APPLICATION = "coaching.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "accounts.context_processors.person",
            ],
        },
    }
]
FORM_RENDERER = "coaching.form_renderer.FormRenderer"

DATABASE_URL = env.text("DATABASE_URL", "")
if DATABASE_URL:
    DATABASES = {"default": dj_database_url.parse(DATABASE_URL, conn_max_age=60, conn_health_checks=True)}
else:
    DATA_DIR.mkdir(parents=True, exist_ok=True)
    DATABASES = {
        "default": {
            "ENGINE": "django.db.backends.sqlite3",
            "NAME": DATA_DIR / "sinewright.sqlite3",
            # IMMEDIATE takes the write lock at BEGIN: deferred transactions that read, then write, fail with
            # 'database is locked' as soon as two requests overlap.
            "OPTIONS": {
                "transaction_mode": "IMMEDIATE",
                "timeout": 20,
                "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=NORMAL; PRAGMA foreign_keys=ON;",
            },
        }
    }
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

REDIS_URL = env.text("REDIS_URL", "")
if REDIS_URL:
    _REDIS = {"BACKEND": "django.core.cache.backends.redis.RedisCache", "LOCATION": REDIS_URL}
    CACHES = {"default": _REDIS, "signs": {**_REDIS, "KEY_PREFIX": "signs"}}
else:
    # "signs": what a worker and the pages tell each other while its transaction is open, across processes.
    CACHES = {
        "default": {"BACKEND": "django.core.cache.backends.locmem.LocMemCache"},
        "signs": {
            "BACKEND": "django.core.cache.backends.filebased.FileBasedCache",
            "LOCATION": DATA_DIR / "signs",
        },
    }

# No broker: recompute requests are worked off in the web process after commit (see coaching/tasks.py).
CELERY_BROKER_URL = REDIS_URL or None
CELERY_TASK_IGNORE_RESULT = True
CELERY_TASK_ACKS_LATE = True
CELERY_TASK_REJECT_ON_WORKER_LOST = True
CELERY_WORKER_PREFETCH_MULTIPLIER = 1
CELERY_TASK_TIME_LIMIT = 25
# What may take a minute waits in a queue of its own, so that no recompute waits behind it. A worker that is told no
# queue (-Q) listens to both. The first keeps its name of when it was the only one: older tasks are in it.
CELERY_TASK_DEFAULT_QUEUE = "celery"
CELERY_TASK_QUEUES = [Queue(name, routing_key=name) for name in ("celery", "long")]
LONG = ("draft_solve", "past_save", "weekly_letters")
CELERY_TASK_ROUTES = {f"coaching.tasks.{name}": {"queue": "long"} for name in LONG}
CELERY_BROKER_CONNECTION_RETRY_ON_STARTUP = True
# Redis redelivers what a killed worker held after `visibility_timeout` seconds (above the task time limit, or a slow
# task would run twice); the other two make kombu look for such messages every second instead of every 100 s.
CELERY_BROKER_TRANSPORT_OPTIONS = {
    "visibility_timeout": env.integer("VISIBILITY_TIMEOUT_S", 40, minimum=1),
    "unacked_restore_interval": 1,
    "unacked_restore_throttle": 1,
    # A worker that dies while it looks for lost messages would keep the others from looking for five minutes.
    "unacked_mutex_expire": 10,
}
RECOMPUTE_SWEEP_S = env.integer("RECOMPUTE_SWEEP_S", 60, minimum=1)
CELERY_BEAT_SCHEDULE = {
    "recompute-sweep": {"task": "coaching.tasks.recompute_sweep", "schedule": RECOMPUTE_SWEEP_S},
    "weekly-letters": {"task": "coaching.tasks.weekly_letters", "schedule": 15 * 60},
}
# Without a broker a draft is solved, and a long table of past training saved, in a process of its own ("process"), so
# that no page waits. "here" does it in the request that asked: for tests, whose database no other process sees.
DRAFT_WORKER = env.choice("DRAFT_WORKER", "process", ("process", "here"))
CELERY_BEAT_SCHEDULE_FILENAME = str(DATA_DIR / "celerybeat-schedule")

# After this many days the audit forgets who looked at what. Local law may ask for more, or for less.
AUDIT_KEEP_DAYS = env.integer("AUDIT_KEEP_DAYS", 730)

# Which equation estimates a one-repetition maximum. A change makes every week stale, and the sweep makes it anew.
E1RM_EQUATION = env.choice("E1RM_EQUATION", "epley", tuple(FORMULAS))

AUTH_USER_MODEL = "accounts.User"
AUTHENTICATION_BACKENDS = [
    "axes.backends.AxesStandaloneBackend",
    "allauth.account.auth_backends.AuthenticationBackend",
]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 10}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "django.contrib.auth.password_validation.NumericPasswordValidator"},
]
LOGIN_URL = "account_login"
LOGIN_REDIRECT_URL = "home"
ACCOUNT_USER_MODEL_USERNAME_FIELD = None
ACCOUNT_LOGIN_METHODS = {"email"}
ACCOUNT_SIGNUP_FIELDS = ["email*", "password1*"]
ACCOUNT_EMAIL_VERIFICATION = "mandatory"
# Only in the browser that signed up a moment ago; elsewhere the link confirms the address and signs nobody in.
ACCOUNT_LOGIN_ON_EMAIL_CONFIRMATION = True
ACCOUNT_PREVENT_ENUMERATION = True
ACCOUNT_SESSION_REMEMBER = True
ACCOUNT_ADAPTER = "accounts.adapter.AccountAdapter"
ACCOUNT_EMAIL_SUBJECT_PREFIX = ""
# A letter to the person whenever password, address or second factor change.
ACCOUNT_EMAIL_NOTIFICATIONS = True
ACCOUNT_FORMS = {
    "login": "accounts.forms.login.LoginForm",
    "signup": "accounts.forms.signup.SignupForm",
    "add_email": "accounts.forms.account.EmailChangeForm",
    "change_password": "accounts.forms.account.PasswordChangeForm",
    "reset_password": "accounts.forms.account.PasswordResetForm",
    "reset_password_from_key": "accounts.forms.account.PasswordResetFromKeyForm",
    "reauthenticate": "accounts.forms.account.ReauthenticateForm",
}
# One address a person: a change takes effect when the new address is confirmed, after the password was asked again.
ACCOUNT_CHANGE_EMAIL = True
ACCOUNT_REAUTHENTICATION_REQUIRED = True
# The session in which the password is changed stays; Django ends all others, because their hash no longer fits.
ACCOUNT_LOGOUT_ON_PASSWORD_CHANGE = False
# Failures at sign-in are axes' business (below): allauth's own limit must be wider, or it would answer first and say
# less. It still bounds guesses at one account from many addresses, and at second-factor codes. Counted in the cache.
ACCOUNT_RATE_LIMITS = {"login": "60/m/ip", "login_failed": "60/m/ip,20/900s/key", "reauthenticate": "10/5m/user"}
MFA_ADAPTER = "accounts.adapter.MfaAdapter"
MFA_FORMS = {
    "authenticate": "accounts.forms.mfa.AuthenticateForm",
    "reauthenticate": "accounts.forms.mfa.ReauthenticateForm",
    "activate_totp": "accounts.forms.mfa.ActivateForm",
}
MFA_SUPPORTED_TYPES = ["totp", "recovery_codes"]
# SECURITY: allauth fears that who signs up under an address of somebody else shuts its owner out with a second factor.
# Nobody gets in here before the first address is confirmed, and a new one counts only once it is; without this line no
# coach could ever change theirs.
MFA_ALLOW_UNVERIFIED_EMAIL = True
MFA_TOTP_ISSUER = "Sinewright"
# Phones' clocks drift: the code before and the code after are taken too.
MFA_TOTP_TOLERANCE = 1
AXES_FAILURE_LIMIT = env.integer("LOCKOUT_FAILURES", 5, minimum=1)
AXES_COOLOFF_TIME = 0.25  # hours
AXES_LOCKOUT_PARAMETERS = [["username", "ip_address"]]
AXES_USERNAME_FORM_FIELD = "login"
AXES_RESET_ON_SUCCESS = True
AXES_LOCKOUT_CALLABLE = "accounts.views.lockout.locked_out"
# The wait is counted from the last counted failure and does not grow: the page can say when it ends.
AXES_RESET_COOL_OFF_ON_FAILURE_DURING_LOCKOUT = False
AXES_CLIENT_IP_CALLABLE = "accounts.adapter.client_ip"
AXES_ENABLE_ADMIN = False
AXES_VERBOSE = False
# How many proxies of ours stand in front: that many entries of X-Forwarded-For are believed, and none by default.
ALLAUTH_TRUSTED_PROXY_COUNT = env.integer("PROXY_COUNT", 0)

SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_AGE = 60 * 60 * 24 * 30
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = PRODUCTION
SECURE_SSL_REDIRECT = env.boolean("HTTPS_REDIRECT", PRODUCTION)
SECURE_REDIRECT_EXEMPT = [r"^health/$"]
SECURE_HSTS_SECONDS = env.integer("HSTS_SECONDS", 3600 if PRODUCTION else 0)
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
if env.boolean("BEHIND_PROXY", False):
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF, "data:"],
        "font-src": [SELF],
        "connect-src": [SELF],
        "manifest-src": [SELF],
        "worker-src": [SELF],
        "form-action": [SELF],
        "base-uri": [NONE],
        "frame-ancestors": [NONE],
    }
}

# An operator's own catalogues come first: they add a language, or put other words into one.
LOCALE_PATHS = [DATA_DIR / "locale", BASE_DIR / "locale"]
LANGUAGES = languages.installed(LOCALE_PATHS)
# For whoever asks for nothing else.
LANGUAGE_CODE = env.choice("LANGUAGE", "en", tuple(code for code, _ in LANGUAGES))
FORMAT_MODULE_PATH = ["coaching.formats"]
USE_I18N = True
USE_TZ = True
TIME_ZONE = "UTC"

STATIC_URL = "static/"
STATIC_ROOT = Path(env.text("STATIC_ROOT", str(DATA_DIR / "staticfiles")))
STATICFILES_DIRS = [BASE_DIR / "static"]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {
        "BACKEND": "coaching.static_storage.StaticStorage"
        if PRODUCTION
        else "django.contrib.staticfiles.storage.StaticFilesStorage"
    },
}
WHITENOISE_USE_FINDERS = not PRODUCTION
if not PRODUCTION:
    # Nothing is collected here, but WhiteNoise warns at every start about a folder that is not there.
    STATIC_ROOT.mkdir(parents=True, exist_ok=True)

EMAIL_HOST = env.text("EMAIL_HOST", "")
EMAIL_BACKEND = f"django.core.mail.backends.{'smtp' if EMAIL_HOST else 'console'}.EmailBackend"
EMAIL_PORT = env.integer("EMAIL_PORT", 587)
EMAIL_HOST_USER = env.text("EMAIL_USER", "")
EMAIL_HOST_PASSWORD = env.text("EMAIL_PASSWORD", "")
# TLS from the first byte (usually port 465), or after STARTTLS (587).
EMAIL_USE_SSL = env.boolean("EMAIL_SSL", False)
EMAIL_USE_TLS = env.boolean("EMAIL_TLS", not EMAIL_USE_SSL)
if EMAIL_USE_SSL and EMAIL_USE_TLS:
    raise ImproperlyConfigured("Of SINEWRIGHT_EMAIL_SSL and SINEWRIGHT_EMAIL_TLS only one can be true.")
# Without it a mail server that does not answer would hold the page that writes the letter for ever.
EMAIL_TIMEOUT = 20
DEFAULT_FROM_EMAIL = env.text("EMAIL_FROM", "Sinewright <noreply@localhost>")

REST_FRAMEWORK = {
    "DEFAULT_AUTHENTICATION_CLASSES": ["logbook.api.authentication.SessionAuthentication"],
    "DEFAULT_PERMISSION_CLASSES": ["rest_framework.permissions.IsAuthenticated"],
    "DEFAULT_RENDERER_CLASSES": ["rest_framework.renderers.JSONRenderer"],
    "DEFAULT_PARSER_CLASSES": ["rest_framework.parsers.JSONParser"],
    "DEFAULT_PAGINATION_CLASS": "logbook.api.pagination.Pages",
    "DEFAULT_SCHEMA_CLASS": "drf_spectacular.openapi.AutoSchema",
    "EXCEPTION_HANDLER": "logbook.api.problems.exception_handler",
    "PAGE_SIZE": 50,
}
SPECTACULAR_SETTINGS = {
    "TITLE": "Sinewright",
    "VERSION": "1",
    "SERVE_INCLUDE_SCHEMA": False,
    "SCHEMA_PATH_PREFIX": "/api/v1",
    "ENUM_NAME_OVERRIDES": {"SideEnum": "logbook.models.Side", "PainSideEnum": "logbook.models.PainReport.Side"},
}

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"line": {"format": "%(asctime)s %(levelname)s %(name)s: %(message)s"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "line"}},
    # What they say of each font and page is for those who work on them; the styles are written for browsers too.
    "loggers": {name: {"level": "ERROR"} for name in ("weasyprint", "fontTools")},
    "root": {"handlers": ["console"], "level": env.choice("LOG_LEVEL", "INFO", ("DEBUG", "INFO", "WARNING", "ERROR"))},
}
