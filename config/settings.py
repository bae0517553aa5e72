"""Settings, one module, read from the environment; DEVELOPERS.md lists every name.

Two profiles: ``laptop`` (one person, 127.0.0.1, no TLS) and ``server`` (TLS in front, secure cookies, HSTS).
"""

from __future__ import annotations

import sqlite3
from pathlib import Path

import environ
from csp.constants import NONE, SELF

from config.locales import compiled_into
from config.secret_key import read_or_make_secret_key

ROOT = Path(__file__).resolve().parent.parent
env = environ.Env()

PROFILE = env.str("LEDGERLINE_PROFILE", default="laptop")
if PROFILE not in {"laptop", "server"}:
    raise environ.ImproperlyConfigured("LEDGERLINE_PROFILE is laptop or server.")
ON_SERVER = PROFILE == "server"
DATA = Path(env.str("LEDGERLINE_DATA", default=str(ROOT / "data"))).resolve()

DEBUG = env.bool("LEDGERLINE_DEBUG", default=False)
SECRET_KEY = env.str("LEDGERLINE_SECRET_KEY", default="") or read_or_make_secret_key(DATA)
SECRET_KEY_FALLBACKS = env.list("LEDGERLINE_OLD_SECRET_KEYS", default=[])
ALLOWED_HOSTS = env.list("LEDGERLINE_HOSTS", default=[] if ON_SERVER else ["127.0.0.1", "localhost"])
SITE_URL = env.str("LEDGERLINE_SITE_URL", default="http://127.0.0.1:8000").rstrip("/")
CSRF_TRUSTED_ORIGINS = [SITE_URL] if ON_SERVER else []

PROXIES = env.int("LEDGERLINE_PROXIES", default=0)  # in front of it, whose word on address and TLS is believed

MAIL_ADDRESS = env.str("LEDGERLINE_MAIL_URL", default="")
SENDS_MAIL = bool(MAIL_ADDRESS)
vars().update(env.email_url_config(MAIL_ADDRESS or "dummymail://"))
EMAIL_TIMEOUT = 10
DEFAULT_FROM_EMAIL = SERVER_EMAIL = env.str("LEDGERLINE_MAIL_FROM", default="")
if SENDS_MAIL and not DEFAULT_FROM_EMAIL:
    raise environ.ImproperlyConfigured("LEDGERLINE_MAIL_FROM says from which address the mails are sent.")
PASSWORD_RESET_TIMEOUT = 3600
OWNERS_NEED_SECOND_STEP = env.bool("LEDGERLINE_OWNERS_NEED_SECOND_STEP", default=False)

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django.contrib.humanize",
    "django.forms",
    "simple_history",
    "django_tables2",
    "django_filters",
    "django_htmx",
    "axes",
    "csp",
    "catalogue",
]

MIDDLEWARE = [
    "catalogue.web.middleware.TellRequests",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.locale.LocaleMiddleware",
    "catalogue.web.middleware.ReadersClock",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "catalogue.web.middleware.PrivateByDefault",
    "catalogue.web.middleware.RefuseNulBytes",
    "django_htmx.middleware.HtmxMiddleware",
    "simple_history.middleware.HistoryRequestMiddleware",
    "axes.middleware.AxesMiddleware",
]

ROOT_URLCONF = "config.urls"
WSGI_APPLICATION = "config.wsgi.application"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [ROOT / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "catalogue.web.shell.shell",
            ],
        },
    }
]

FORM_RENDERER = "catalogue.web.forms.renderer.FormRenderer"

BACKUPS = DATA / "backups"
FILES = DATA / "files"  # what was uploaded, each under its SHA-256
KEPT_CALENDARS = DATA / "calendars"  # built ones, for every process; they can always be built again

DATABASES = {"default": env.db_url("DATABASE_URL", default=f"sqlite:///{DATA / 'catalogue.sqlite3'}")}
if "ENGINE" not in DATABASES["default"]:
    raise environ.ImproperlyConfigured(
        "DATABASE_URL names no database that is taken; write postgres://user@host/name or sqlite:////folder/file."
    )
if DATABASES["default"]["ENGINE"].endswith("sqlite3"):
    # Write-ahead logging can corrupt a database before 3.51.3 when two connections check-point at once.
    journal = "WAL" if sqlite3.sqlite_version_info >= (3, 51, 3) else "DELETE"
    # Pages of 16 MB are kept by each connection: of a million performances, those of one list lie far apart.
    DATABASES["default"]["OPTIONS"] = {
        "transaction_mode": "IMMEDIATE",
        "timeout": 20,
        "init_command": f"PRAGMA journal_mode={journal}; PRAGMA synchronous=FULL; PRAGMA temp_store=MEMORY; "
        "PRAGMA cache_size=-16000;",
    }
else:
    DATABASES["default"]["CONN_HEALTH_CHECKS"] = True
DATABASES["default"]["CONN_MAX_AGE"] = 600
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTHENTICATION_BACKENDS = ["axes.backends.AxesStandaloneBackend", "django.contrib.auth.backends.ModelBackend"]
PASSWORD_HASHERS = [
    "django.contrib.auth.hashers.Argon2PasswordHasher",
    "django.contrib.auth.hashers.PBKDF2PasswordHasher",
]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 10}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
LOGIN_URL = "sign-in"
LOGIN_REDIRECT_URL = "home"
LOGOUT_REDIRECT_URL = "sign-in"
AXES_FAILURE_LIMIT = 5
AXES_COOLOFF_TIME = 0.25  # hours: a quarter of an hour
AXES_LOCKOUT_PARAMETERS = [["username", "ip_address"]]
AXES_LOCKOUT_TEMPLATE = "sign/locked.html"
AXES_CLIENT_IP_CALLABLE = "catalogue.web.askers.address_of"
AXES_RESET_ON_SUCCESS = True
AXES_DISABLE_ACCESS_LOG = True

FILE_UPLOAD_HANDLERS = [
    "catalogue.web.uploads.BoundedUploads",
    "django.core.files.uploadhandler.MemoryFileUploadHandler",
    "django.core.files.uploadhandler.TemporaryFileUploadHandler",
]

LANGUAGE_CODE = "en-gb"
LANGUAGES = [("en-gb", "English (United Kingdom)"), ("en-us", "English (United States)")]
LOCALE_PATHS = [compiled_into(DATA / "locale", ROOT / "catalogue" / "locale")]
TIME_ZONE = "UTC"
USE_TZ = True

STATIC_URL = "static/"
STATIC_ROOT = DATA / "static" if ON_SERVER else None  # a laptop serves the files from where they are
STATICFILES_DIRS = [("fonts", ROOT / "catalogue" / "documents" / "fonts")]  # pages and documents use the same files
MEDIA_ROOT = FILES  # never served by address: a page asks who may see a file
FILES_BUCKET = env.str("LEDGERLINE_FILES_BUCKET", default="")  # of an object storage; without one they lie in FILES
FILES_ENDPOINT = env.str("LEDGERLINE_FILES_ENDPOINT", default="") or None
IN_BUCKET = {
    "bucket_name": FILES_BUCKET,
    "endpoint_url": FILES_ENDPOINT,
    "region_name": env.str("LEDGERLINE_FILES_REGION", default="") or None,
    "addressing_style": "path" if FILES_ENDPOINT else "auto",
    "signature_version": "s3v4",
    "default_acl": None,  # as private as the bucket
    "file_overwrite": False,
}
OWNERS_ALONE = {"file_permissions_mode": 0o600, "directory_permissions_mode": 0o700}
STORAGES = {
    "default": {"BACKEND": "catalogue.exchange.object_storage.ObjectStorage", "OPTIONS": IN_BUCKET}
    if FILES_BUCKET
    else {"BACKEND": "catalogue.exchange.whole_files.WholeFiles", "OPTIONS": OWNERS_ALONE},
    "staticfiles": {
        "BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"
        if ON_SERVER
        else "django.contrib.staticfiles.storage.StaticFilesStorage"
    },
}
WHITENOISE_USE_FINDERS = not ON_SERVER
DJANGO_TABLES2_TEMPLATE = "table.html"

CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF, "data:"],
        "media-src": [SELF],
        "font-src": [SELF],
        "connect-src": [SELF],
        "form-action": [SELF],
        "manifest-src": [SELF],
        "base-uri": [NONE],
        "frame-ancestors": [NONE],
        "object-src": [NONE],
    }
}
X_FRAME_OPTIONS = "DENY"
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_AGE = 12 * 3600 if ON_SERVER else 14 * 24 * 3600
CSRF_COOKIE_SAMESITE = "Lax"
CSRF_FAILURE_VIEW = "catalogue.web.errors.csrf_failure"
if ON_SERVER:
    SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = True
    SESSION_COOKIE_NAME, CSRF_COOKIE_NAME = "__Host-session", "__Host-csrf"
    SECURE_SSL_REDIRECT = True
    SECURE_REDIRECT_EXEMPT = [r"^health/(live|ready)/$"]  # asked on the machine itself, without TLS
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if PROXIES else None
    SECURE_HSTS_SECONDS = 31_536_000
    SECURE_HSTS_INCLUDE_SUBDOMAINS = SECURE_HSTS_PRELOAD = True

METRICS_TOKEN = env.str("LEDGERLINE_METRICS_TOKEN", default="")  # without one there are no metrics
if METRICS_TOKEN and len(METRICS_TOKEN) < 20:
    raise environ.ImproperlyConfigured("LEDGERLINE_METRICS_TOKEN needs 20 characters or more.")

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "filters": {"mask": {"()": "config.log_masks.MaskSecrets"}},
    "formatters": {
        "plain": {"format": "%(asctime)s %(levelname)s %(name)s: %(message)s"},
        "json": {"()": "catalogue.web.logs.JsonLines"},
    },
    "handlers": {
        "console": {"class": "logging.StreamHandler", "filters": ["mask"], "formatter": "plain"},
        "lines": {"class": "logging.StreamHandler", "formatter": "json"},
    },
    "root": {"handlers": ["lines" if ON_SERVER else "console"], "level": "WARNING"},
    "loggers": {
        "catalogue": {"level": "INFO" if ON_SERVER else "WARNING"},
        # Its own handlers would print whole addresses, and send faults by e-mail with all that was typed.
        **({name: {"handlers": [], "level": "WARNING"} for name in ("django", "django.server")} if ON_SERVER else {}),
    },
}
