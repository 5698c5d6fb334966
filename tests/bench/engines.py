"""Chromium, Firefox and WebKitGTK, driven alike: what first_press.py asks of a browser.

Chromium is driven by Playwright. The other two are what Debian has as `firefox-esr`, and as
`webkit2gtk-driver` with `xvfb`; each listens to the commands of WebDriver by itself, so nothing
else has to be installed. WebKitGTK takes its language from the environment (LANG), which must name
a locale that this computer has, and forgets everything when it ends.
"""

import base64
import http.client
import json
import os
import shutil
import signal
import socket
import subprocess
import time
from abc import ABC, abstractmethod
from contextlib import suppress
from pathlib import Path
from typing import Any

from playwright.sync_api import Error, Playwright

from pondapp.web import compiled

SIZE = (390, 844)  # of a phone; the windows of the other two stay somewhat wider
PATIENCE = 60.0  # seconds for a browser to come up
ELSEWHERE = "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"
FLAGS = ("--no-sandbox", "--disable-gpu", "--enable-unsafe-swiftshader", ELSEWHERE)
PREFERENCES = {
    "marionette.port": 0,
    "datareporting.policy.dataSubmissionEnabled": False,
    "app.update.disabledForTesting": True,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
}


class Refused(Exception):
    """A browser did not do what it was told: between two pages, mostly, and it is asked again."""


class Engine(ABC):
    """One browser with one profile."""

    keeps = True
    """Whether what a site keeps outlives the browser's end."""

    def __init__(self, profile: Path) -> None:
        self.profile = profile

    @abstractmethod
    def start(self) -> None:
        """Open one empty page."""

    @abstractmethod
    def visit(self, address: str) -> None:
        """Go to an address, and wait for no more than the browser makes one wait."""

    @abstractmethod
    def press(self, x: float, y: float) -> None:
        """Press and let go at a place of the page; Refused where there is no page just now."""

    @abstractmethod
    def tell(self, expression: str) -> Any:
        """What an expression of the page is worth; Refused where there is no page just now."""

    @abstractmethod
    def picture(self, path: Path) -> None:
        """Save what is to be seen."""

    @abstractmethod
    def end(self) -> None:
        """Close the browser as a user does."""

    def wait(self, expression: str, seconds: float) -> Any:
        """Wait until an expression of the page is worth something; None when it never was."""
        deadline = time.monotonic() + seconds
        while time.monotonic() < deadline:
            with suppress(Refused):
                if found := self.tell(expression):
                    return found
            time.sleep(0.1)
        return None


class Chromium(Engine):
    """Chromium, by Playwright."""

    driver: Playwright  # one for all

    def start(self) -> None:
        self.context = self.driver.chromium.launch_persistent_context(
            self.profile,
            executable_path=compiled.browser(),
            args=list(FLAGS),
            viewport={"width": SIZE[0], "height": SIZE[1]},
        )
        self.page = self.context.pages[0]

    def visit(self, address: str) -> None:
        self.page.goto(address, wait_until="commit")

    def press(self, x: float, y: float) -> None:
        try:
            self.page.mouse.click(x, y)
        except Error as problem:
            raise Refused(str(problem)) from problem

    def tell(self, expression: str) -> Any:
        try:
            return self.page.evaluate(expression)
        except Error as problem:
            raise Refused(str(problem)) from problem

    def picture(self, path: Path) -> None:
        self.page.screenshot(path=path)

    def end(self) -> None:
        self.context.close()


class _Remote(Engine):
    """A browser that takes the commands of WebDriver."""

    @abstractmethod
    def command(self, name: str, **values: Any) -> Any:
        """What the browser answers to a command; Refused where it is an error."""

    def visit(self, address: str) -> None:
        self.command("Navigate", url=address)

    def press(self, x: float, y: float) -> None:
        place = {"type": "pointerMove", "duration": 0, "x": round(x), "y": round(y)}
        deeds = [
            {**place, "origin": "viewport"},
            {"type": "pointerDown", "button": 0},
            {"type": "pointerUp", "button": 0},
        ]
        pointer = {"type": "pointer", "id": "finger", "actions": deeds}
        self.command("PerformActions", actions=[pointer])

    def tell(self, expression: str) -> Any:
        return self.command("ExecuteScript", script=f"return ({expression});", args=[])

    def picture(self, path: Path) -> None:
        path.write_bytes(base64.b64decode(self.command("TakeScreenshot")))

    def _size(self) -> None:
        self.command("SetWindowRect", width=SIZE[0], height=SIZE[1])

    def _run(self, *command: str | Path, **environment: str) -> None:
        self.process = subprocess.Popen(
            command,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
            env={**os.environ, **environment},
        )

    def _kill(self) -> None:
        with suppress(ProcessLookupError):
            os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait()


class Firefox(_Remote):
    """Firefox, by its own socket: messages are "length:[kind, number, name, values]"."""

    def start(self) -> None:
        self.profile.mkdir(parents=True, exist_ok=True)
        lines = [f"user_pref({json.dumps(k)}, {json.dumps(v)});" for k, v in PREFERENCES.items()]
        (self.profile / "user.js").write_text("\n".join(lines), encoding="utf-8")
        port = self.profile / "MarionetteActivePort"
        port.unlink(missing_ok=True)
        program = shutil.which("firefox-esr") or shutil.which("firefox") or "firefox"
        self._run(program, "--headless", "--marionette", "--profile", self.profile, "about:blank")
        deadline = time.monotonic() + PATIENCE
        while not (port.exists() and port.read_text()):
            if time.monotonic() > deadline:
                raise SystemExit("Firefox did not start")
            time.sleep(0.05)
        self.socket = socket.create_connection(("127.0.0.1", int(port.read_text())))
        self.answers = self.socket.makefile("rb")
        self._read()  # its greeting
        self.command("NewSession", pageLoadStrategy="none")
        self._size()

    def _read(self) -> Any:
        length = b""
        while (letter := self.answers.read(1)) != b":":
            if not letter:
                raise Refused("Firefox is gone")
            length += letter
        return json.loads(self.answers.read(int(length)))

    def command(self, name: str, **values: Any) -> Any:
        full = name if ":" in name else f"WebDriver:{name}"
        message = json.dumps([0, 1, full, values]).encode()
        self.socket.sendall(b"%d:%s" % (len(message), message))
        _, _, problem, answer = self._read()
        if problem:
            raise Refused(str(problem))
        return answer.get("value", answer)

    def end(self) -> None:
        with suppress(Refused, OSError):
            self.command("Marionette:Quit", flags=["eForceQuit"])
        self.socket.close()
        with suppress(subprocess.TimeoutExpired):
            self.process.wait(20)  # it writes down what was kept
        self._kill()


class WebKit(_Remote):
    """WebKitGTK, by its driver program, on a screen of its own that nobody sees."""

    keeps = False
    PATHS = {  # noqa: RUF012
        "NewSession": "",
        "Navigate": "url",
        "PerformActions": "actions",
        "ExecuteScript": "execute/sync",
        "SetWindowRect": "window/rect",
    }

    def start(self) -> None:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        self.screen, number = self._screen()
        self._run("WebKitWebDriver", f"--port={self.port}", DISPLAY=f":{number}")
        self.session = ""
        options = {"args": ["--automation"]}
        always = {"pageLoadStrategy": "none", "webkitgtk:browserOptions": options}
        deadline = time.monotonic() + PATIENCE
        while not self.session:
            with suppress(OSError):
                made = self.command("NewSession", capabilities={"alwaysMatch": always})
                self.session = f"/{made['sessionId']}"
            if time.monotonic() > deadline:
                raise SystemExit("WebKitGTK did not start")
            time.sleep(0.05)
        self._size()

    def _screen(self) -> tuple[subprocess.Popen[bytes], str]:
        read, write = os.pipe()
        command = ["Xvfb", "-displayfd", str(write), "-screen", "0", "1280x1024x24"]
        made = subprocess.Popen(
            command, pass_fds=[write], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        os.close(write)
        with os.fdopen(read) as told:
            return made, told.readline().strip()

    def visit(self, address: str) -> None:
        """Its driver waits for ever with a press at a page that goes away: wait for the new one."""
        super().visit(address)
        deadline = time.monotonic() + PATIENCE
        while time.monotonic() < deadline:
            with suppress(Refused):
                if self.tell("location.href") == address:
                    return

    def command(self, name: str, **values: Any) -> Any:
        method, path = "POST", self.PATHS.get(name, "")
        if name == "TakeScreenshot":
            method, path = "GET", "screenshot"
        return self._ask(method, f"/session{self.session}/{path}".rstrip("/"), values)

    def _ask(self, method: str, path: str, values: dict[str, Any] | None = None) -> Any:
        link = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE)
        body = json.dumps(values) if method == "POST" else None
        link.request(method, path, body, {"Content-Type": "application/json"})
        answer = json.loads(link.getresponse().read())["value"]
        link.close()
        if isinstance(answer, dict) and "error" in answer:
            raise Refused(str(answer))
        return answer

    def end(self) -> None:
        with suppress(Refused, OSError):
            self._ask("DELETE", f"/session{self.session}")
        self._kill()
        self.screen.terminate()
        self.screen.wait()


ENGINES: dict[str, type[Engine]] = {"chromium": Chromium, "firefox": Firefox, "webkit": WebKit}
