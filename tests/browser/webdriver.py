# SPDX-License-Identifier: GPL-3.0-or-later
"""Chromium without a window, spoken to by the W3C WebDriver protocol: chromedriver listens on a
port of this machine, a command is a POST of JSON, the answer is JSON with a `value`.
"""

import http.client
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
from pathlib import Path

PROGRAMS = ("chromium", "chromedriver", "tidy")
SKIPPED = 77  # what ctest knows as skipped
TIMEOUT_S = 120


def skip_without_browser():
    """Ends the program loudly where something is not installed; as a failure where it has to be."""
    missing = [p for p in PROGRAMS if not shutil.which(p)]
    if not missing:
        return
    needed = os.environ.get("AREO_REQUIRE_BROWSER") == "1"
    print(f"{'FAILED' if needed else 'SKIPPED'}: no page was tested, as these are not installed: "
          f"{', '.join(missing)}; sh src/cmake/packages.sh ci installs them")  # fmt: skip
    sys.exit(1 if needed else SKIPPED)


class Failed(Exception):
    """A command that the browser refuses."""


class Browser:
    """One Chromium for many pages. Use it as `with Browser() as browser:`, which also ends it."""

    def __init__(self):
        self.alerts = []  # what pages have shown in windows of their own

    def __enter__(self):
        # A test that is ended by a signal still has to end what it started.
        signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))
        # Chromium may still be writing there when it is ended.
        self.folder = tempfile.TemporaryDirectory(
            prefix="areo-browser-", ignore_cleanup_errors=True)  # fmt: skip
        self.session = ""
        try:
            self._start()
        except BaseException:
            self._stop()
            raise
        return self

    def __exit__(self, *_):
        self._stop()

    def _start(self):
        self.log = Path(self.folder.name, "driver.log")
        with self.log.open("wb") as log:
            self.driver = subprocess.Popen(
                ["chromedriver", "--port=0"], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                stderr=log, start_new_session=True,
                env=os.environ | {"HOME": self.folder.name, "LC_ALL": "C.UTF-8"})  # fmt: skip
        for line in self.driver.stdout:
            if m := re.search(rb"started successfully on port (\d+)", line):
                break
        else:
            raise Failed(f"chromedriver does not start: {self.log.read_text(errors='replace')}")
        self.connection = http.client.HTTPConnection("127.0.0.1", int(m[1]), timeout=TIMEOUT_S)
        options = [
            "--headless=new",
            "--disable-gpu",
            "--disable-dev-shm-usage",
            "--disable-background-networking",
            "--no-first-run",
            f"--user-data-dir={self.folder.name}/profile",
            # Nothing but this machine can be asked for, whatever a page contains.
            "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
        ]
        if os.geteuid() == 0:
            options.append("--no-sandbox")  # root has no right to one
        made = self._call("POST", "/session", {"capabilities": {"alwaysMatch": {
            "browserName": "chrome",
            "goog:chromeOptions": {"binary": shutil.which("chromium"), "args": options},
            "goog:loggingPrefs": {"browser": "ALL", "performance": "ALL"},
            "unhandledPromptBehavior": "dismiss and notify",
            "timeouts": {"script": 60_000, "pageLoad": 60_000},
        }}})  # fmt: skip
        self.session = f"/session/{made['sessionId']}"
        self.open("about:blank")  # away from Chromium's own first page, which asks for much

    def _stop(self):
        if hasattr(self, "driver"):
            try:
                if self.session:
                    self._call("DELETE", self.session)
            except (OSError, http.client.HTTPException, Failed):
                pass  # whatever is left of it ends with its group
            finally:
                try:
                    os.killpg(self.driver.pid, signal.SIGKILL)
                except ProcessLookupError:
                    pass
                self.driver.stdout.close()
                self.driver.wait()
        self.folder.cleanup()

    def _call(self, method, path, body=None):
        given = None if body is None else json.dumps(body)
        for _ in range(20):
            self.connection.request(method, path, given, {"Content-Type": "application/json"})
            value = json.loads(self.connection.getresponse().read())["value"]
            error = value.get("error") if isinstance(value, dict) else None
            if error != "unexpected alert open":
                break
            # The driver has closed it; remember it and ask again.
            self.alerts.append((value.get("data") or {}).get("text", ""))
        if error:
            raise Failed(f"{error}: {value.get('message', '').splitlines()[0]}")
        return value

    def open(self, url):
        self._call("POST", self.session + "/url", {"url": url})

    def script(self, function_body, *args):
        """Also where the page itself may not run scripts."""
        return self._call("POST", self.session + "/execute/sync",
                          {"script": function_body, "args": args})  # fmt: skip

    def cdp(self, command, **parameters):
        """A command of Chromium's own protocol."""
        return self._call("POST", self.session + "/goog/cdp/execute",
                          {"cmd": command, "params": parameters})  # fmt: skip

    def find(self, selector):
        """Identifiers of elements, in the order of the document."""
        found = self._call("POST", self.session + "/elements",
                           {"using": "css selector", "value": selector})  # fmt: skip
        return [e for element in found for e in element.values()]

    def accessible_name(self, element):
        return self._call("GET", f"{self.session}/element/{element}/computedlabel")

    def take_log(self, kind):
        """What was logged since the last time."""
        return self._call("POST", self.session + "/se/log", {"type": kind})

    def requests(self):
        """Addresses that were asked for since the last time."""
        entries = self.take_log("performance")
        messages = [json.loads(entry["message"])["message"] for entry in entries]
        return [m["params"]["request"]["url"] for m in messages
                if m["method"] == "Network.requestWillBeSent"]  # fmt: skip
