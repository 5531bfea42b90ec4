"""Debian's own browser, driven by playwright; and what must never be seen of a page."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

PHONE = {"width": 360, "height": 740}
DESK = {"width": 1200, "height": 900}


@contextmanager
def browser() -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    path = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    quiet = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update"]
    with sync_playwright() as play:
        started = play.chromium.launch(executable_path=path, args=quiet)
        try:
            yield started
        finally:
            started.close()


def heard_on(tab: Any) -> list[str]:
    """All that a page asks for, complains of, or puts before the reader; it grows."""
    heard: list[str] = []
    tab.on("dialog", lambda dialog: (heard.append(dialog.message), dialog.dismiss()))
    tab.on("request", lambda request: heard.append(request.url))
    tab.on("pageerror", lambda error: heard.append(str(error)))
    tab.on("console", lambda message: heard.append(message.text))
    return heard


def written(files: dict[str, bytes], folder: Path) -> Path:
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    return folder
