"""One JupyterLab for the whole run, one browser for each file of browser tests."""

import pytest
from lab import CHROMIUM_ARGS, find_chromium, running_lab


@pytest.fixture(scope="session")
def lab(tmp_path_factory):
    """A running JupyterLab over an empty folder, `lab.root`; tests put their notebooks there."""
    if find_chromium() is None:
        pytest.skip("no chromium is installed here, so nothing can be tried in a real page")
    with running_lab(tmp_path_factory.mktemp("notebooks"), tmp_path_factory.mktemp("lab")) as running:
        yield running


@pytest.fixture(scope="module")
def page(lab):
    """A fresh page of headless chromium."""
    sync_api = pytest.importorskip("playwright.sync_api")
    # Not kept for the session: while it is open an event loop counts as running in this thread, and
    # the kernels that run the notebook tests would stumble over it.
    with sync_api.sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=find_chromium(), args=CHROMIUM_ARGS)
        page = browser.new_page(viewport={"width": 1200, "height": 800})
        page.set_default_timeout(10_000)
        yield page
        browser.close()
