"""What all tests share: the same examples on every run, and no terminal of one's own."""

import pytest
from hypothesis import HealthCheck, settings

# Nothing is timed, for machines differ; and a failure must come again when it is looked for.
settings.register_profile(
    "labelgen", deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow], print_blob=True
)
settings.load_profile("labelgen")


@pytest.fixture(autouse=True)
def plain_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """Tables and messages as they look in a pipe, wherever the tests are run."""
    for name in ("FORCE_COLOR", "CLICOLOR_FORCE", "PY_COLORS", "TTY_COMPATIBLE", "TTY_INTERACTIVE"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.setenv("TERM", "dumb")
    monkeypatch.setenv("COLUMNS", "120")
