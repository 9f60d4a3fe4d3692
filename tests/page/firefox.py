"""Firefox driven by WebDriver BiDi (a draft of the W3C), which it speaks itself: it needs no driver beside it."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

FIREFOX = shutil.which("firefox-esr") or shutil.which("firefox")
WAIT = 90.0
"""Seconds until something must be there; a machine may be busy."""
_PLAIN = {
    "browser.shell.checkDefaultBrowser": False,
    "datareporting.policy.dataSubmissionEnabled": False,
    "toolkit.telemetry.enabled": False,
    "app.update.enabled": False,
    "network.captive-portal-service.enabled": False,
    "browser.aboutwelcome.enabled": False,
}


class Firefox:
    """One page in a Firefox without a window."""

    def __init__(self, line: Any) -> None:
        self._line, self._number = line, 0
        self.faults: list[str] = []
        self.requests: list[str] = []
        self._send("session.new", {"capabilities": {}})
        self._send("session.subscribe", {"events": ["log.entryAdded", "network.beforeRequestSent"]})
        self._context = self._send("browsingContext.getTree", {})["contexts"][0]["context"]

    def goto(self, address: str) -> None:
        """Load an address."""
        where = {"context": self._context, "url": address, "wait": "complete"}
        self._send("browsingContext.navigate", where)

    def sized(self, width: int, height: int) -> None:
        """Give the page this many pixels."""
        viewport = {"width": width, "height": height}
        self._send("browsingContext.setViewport", {"context": self._context, "viewport": viewport})

    def run(self, script: str) -> Any:
        """What an expression comes to: a text, a number, a truth or nothing."""
        asked = {"expression": script, "target": {"context": self._context}, "awaitPromise": True}
        said = self._send("script.evaluate", asked)
        assert said["type"] == "success", said
        return said["result"].get("value")

    def until(self, script: str) -> Any:
        """Wait until an expression is true, and give what it comes to."""
        end = time.monotonic() + WAIT
        while time.monotonic() < end:
            if found := self.run(script):
                return found
            time.sleep(0.1)
        raise AssertionError(f"this did not become true: {script}")

    def click(self, selector: str) -> None:
        """Click by a pointer at the middle of an element."""
        self.run(f"document.querySelector({json.dumps(selector)}).scrollIntoView({{block: 'center'}})")
        place = self.run(
            f"(() => {{ const r = document.querySelector({json.dumps(selector)}).getBoundingClientRect();"
            " return JSON.stringify([Math.round(r.x + r.width / 2), Math.round(r.y + r.height / 2)]) })()"
        )
        x, y = json.loads(place)
        moves = [
            {"type": "pointerMove", "x": x, "y": y},
            *({"type": f"pointer{way}", "button": 0} for way in ("Down", "Up")),
        ]
        self._act([{"type": "pointer", "id": "mouse", "actions": moves}])

    def type(self, text: str) -> None:
        """Type on the keyboard; `\\ue004` is the tabulator."""
        keys = [{"type": way, "value": letter} for letter in text for way in ("keyDown", "keyUp")]
        self._act([{"type": "key", "id": "keys", "actions": keys}])

    def picture(self) -> str:
        """What is seen, as PNG in base64."""
        return str(self._send("browsingContext.captureScreenshot", {"context": self._context})["data"])

    def _act(self, actions: list[dict[str, Any]]) -> None:
        self._send("input.performActions", {"context": self._context, "actions": actions})

    def _send(self, method: str, params: dict[str, Any]) -> Any:
        self._number += 1
        self._line.send(json.dumps({"id": self._number, "method": method, "params": params}))
        while True:
            said = json.loads(self._line.recv(timeout=WAIT))
            if said.get("id") == self._number:
                assert "result" in said, said
                return said["result"]
            self._heard(said)

    def _heard(self, said: dict[str, Any]) -> None:
        params = said.get("params", {})
        if said.get("method") == "log.entryAdded" and params.get("level") == "error":
            self.faults.append(str(params.get("text")))
        if said.get("method") == "network.beforeRequestSent":
            self.requests.append(str(params["request"]["url"]))


@contextmanager
def firefox_started(home: Path) -> Iterator[Firefox]:
    """A Firefox with a profile of its own, ended afterwards."""
    from websockets.sync.client import connect

    assert FIREFOX
    profile = home / "profile"
    profile.mkdir()
    lines = [f'user_pref("{name}", {json.dumps(value)});' for name, value in _PLAIN.items()]
    (profile / "user.js").write_text("\n".join(lines) + "\n", "utf-8")
    command = [FIREFOX, "--headless", "--no-remote", "--profile", str(profile), "--remote-debugging-port", "0"]
    with subprocess.Popen(
        [*command, "about:blank"], stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, text=True
    ) as process:
        try:
            with connect(f"{_address(process)}/session", max_size=2**25) as line:
                yield Firefox(line)
        finally:
            process.terminate()
            with suppress(subprocess.TimeoutExpired):
                process.wait(20)
            process.kill()


def _address(process: subprocess.Popen[str]) -> str:
    assert process.stderr
    for said in process.stderr:
        if found := re.search(r"WebDriver BiDi listening on (ws://\S+)", said):
            return found[1]
    raise AssertionError("Firefox says no address")
