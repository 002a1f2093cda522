"""A real JupyterLab on this machine, and the few moves a browser test needs in it."""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

PROJECT = Path(__file__).resolve().parents[2]
CHROMIUM_ARGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
_START_S = 60
_RUN_MS = 60_000


@dataclass(frozen=True)
class Lab:
    """A running JupyterLab: its address, the folder of its notebooks, a folder for pictures."""

    url: str
    root: Path
    pictures: Path


def find_chromium() -> str | None:
    """Return the path of the system's chromium, or None."""
    return shutil.which("chromium") or shutil.which("chromium-browser")


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def _write_json(path: Path, content: dict[str, Any]) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(json.dumps(content), encoding="utf-8")


def _settle(home: Path, root: Path, port: int) -> None:
    """Write the settings: no token, no news, nothing of the user's own, this very Python as kernel."""
    _write_json(
        home / "config" / "jupyter_server_config.json",
        {
            "IdentityProvider": {"token": ""},
            "ServerApp": {
                "ip": "127.0.0.1",
                "port": port,
                "port_retries": 0,
                "allow_root": True,
                "open_browser": False,
                "root_dir": str(root),
            },
            "LabApp": {
                # The page then offers `window.jupyterapp`, which says what a screen can only hint at.
                "expose_app_in_browser": True,
                "workspaces_dir": str(home / "workspaces"),
                "user_settings_dir": str(home / "settings"),
            },
        },
    )
    _write_json(
        home / "settings" / "@jupyterlab" / "apputils-extension" / "notification.jupyterlab-settings",
        {"fetchNews": "false", "checkForUpdates": False},
    )
    _write_json(
        home / "data" / "kernels" / "python3" / "kernel.json",
        {
            "argv": [sys.executable, "-m", "ipykernel_launcher", "-f", "{connection_file}"],
            "display_name": "Python 3",
            "language": "python",
        },
    )


def _wait_until_it_answers(url: str, server: subprocess.Popen[bytes], log: Path) -> None:
    end = time.monotonic() + _START_S
    while time.monotonic() < end and server.poll() is None:
        try:
            with urllib.request.urlopen(f"{url}/api", timeout=2):
                return
        except (urllib.error.URLError, OSError):
            time.sleep(0.1)
    raise RuntimeError(f"JupyterLab did not start; its log ends:\n{log.read_text()[-2000:]}")


@contextmanager
def running_lab(root: Path, home: Path) -> Iterator[Lab]:
    """Run a JupyterLab over a folder of notebooks, and stop it and its kernels for sure.

    Args:
        root: the folder it opens notebooks from.
        home: an empty folder for its settings, kernels and log.
    """
    port = _free_port()
    _settle(home, root, port)
    places = {
        "JUPYTER_CONFIG_DIR": home / "config",
        "JUPYTER_DATA_DIR": home / "data",
        "JUPYTER_RUNTIME_DIR": home / "runtime",
        "IPYTHONDIR": home / "ipython",
        "PYTHONPATH": PROJECT,
    }
    env = {**os.environ, **{key: str(place) for key, place in places.items()}}
    url, log = f"http://127.0.0.1:{port}", home / "lab.log"
    with log.open("wb") as out:
        server = subprocess.Popen([sys.executable, "-m", "jupyterlab"], stdout=out, stderr=out, env=env, cwd=root)
        try:
            _wait_until_it_answers(url, server, log)
            yield Lab(url, root, home / "pictures")
        finally:
            server.terminate()  # it ends its kernels before itself
            try:
                server.wait(15)
            except subprocess.TimeoutExpired:
                server.kill()
                server.wait()


def open_notebook(page: Page, lab: Lab, name: str) -> None:
    """Open a notebook, wait for its kernel, run all cells and wait until each one has run."""
    page.goto(f"{lab.url}/lab/tree/{name}?reset")
    page.wait_for_function(
        "name => window.jupyterapp?.shell.currentWidget?.context?.path === name", arg=name, timeout=_RUN_MS
    )
    run_all(page)


def run_all(page: Page) -> None:
    """Run all cells of the open notebook afresh and wait until every code cell has a number."""
    # A request to run that comes before the kernel answers is silently dropped.
    page.wait_for_function(
        """() => {
            const session = window.jupyterapp.shell.currentWidget.sessionContext;
            const kernel = session?.session?.kernel;
            return session?.isReady && kernel?.connectionStatus === 'connected' && kernel.status === 'idle';
        }""",
        timeout=_RUN_MS,
    )
    page.evaluate(
        """() => {
            window.jupyterapp.commands.execute('notebook:clear-all-cell-outputs');
            window.jupyterapp.commands.execute('notebook:run-all-cells');
        }"""
    )
    page.wait_for_function(
        """() => window.jupyterapp.shell.currentWidget.content.model.sharedModel.cells.every(
            cell => cell.cell_type !== 'code' || !cell.source.trim() || cell.execution_count > 0)""",
        timeout=_RUN_MS,
    )


def shut_down(page: Page) -> None:
    """End the kernel of the open notebook, so that many notebooks need not stay in memory."""
    page.evaluate("() => window.jupyterapp.shell.currentWidget.sessionContext.shutdown()")


def notebook_state(page: Page) -> dict[str, Any]:
    """Return what must stay still while a control is used: cells, the chosen one, scroll, height."""
    state: dict[str, Any] = page.evaluate(
        """async () => {
            const frame = () => new Promise(requestAnimationFrame);
            await frame().then(frame); // a scroll on its way has happened by then
            const notebook = window.jupyterapp.shell.currentWidget.content;
            const outer = notebook.node.querySelector('.jp-WindowedPanel-outer') ?? notebook.node;
            return {
                cells: notebook.widgets.map(cell => cell.model.type),
                active: notebook.activeCellIndex,
                mode: notebook.mode,
                scroll: outer.scrollTop,
                height: outer.scrollHeight,
            };
        }"""
    )
    return state


def use_theme(page: Page, theme: str) -> None:
    """Change the theme, "JupyterLab Light" or "JupyterLab Dark"."""
    page.evaluate("theme => window.jupyterapp.commands.execute('apputils:change-theme', {theme})", theme)
    page.wait_for_function("theme => document.body.dataset.jpThemeName === theme", arg=theme)


def take_picture(page: Page, lab: Lab, name: str) -> Path:
    """Save what the page looks like now, as a PNG in the lab's folder of pictures."""
    path = lab.pictures / f"{name}.png"
    page.screenshot(path=path)
    return path


def slider(page: Page, name: str) -> Locator:
    """Find a control's slider by what a screen reader calls it."""
    return page.get_by_role("slider", name=name, exact=True)


def typed_box(page: Page, name: str) -> Locator:
    """Find a control's typed box by what a screen reader calls it."""
    return page.get_by_role("textbox", name=f"{name}, typed", exact=True)


def run_instead(page: Page, words: str, source: str) -> None:
    """Put another source into the one cell that holds these words, as by hand, and run it."""
    page.evaluate(
        """async ([words, source]) => {
            const notebook = window.jupyterapp.shell.currentWidget.content;
            const found = notebook.widgets.filter(cell => cell.model.sharedModel.source.includes(words));
            if (found.length !== 1) throw new Error(`${found.length} cells hold ${words}`);
            found[0].model.sharedModel.setSource(source);
            notebook.activeCellIndex = notebook.widgets.indexOf(found[0]);
            await window.jupyterapp.commands.execute('notebook:run-cell');
        }""",
        [words, source],
    )


def stored_errors(page: Page) -> list[str]:
    """Return what any cell of the open notebook has failed with."""
    errors: list[str] = page.evaluate(
        """() => window.jupyterapp.shell.currentWidget.content.model.sharedModel.toJSON().cells
            .flatMap(cell => cell.outputs ?? [])
            .filter(output => output.output_type === 'error' || output.name === 'stderr')
            .map(output => output.evalue ?? String(output.text))"""
    )
    return errors
