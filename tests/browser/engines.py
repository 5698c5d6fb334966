"""Chromium, Firefox and WebKitGTK, driven alike: what tests and benchmarks ask of a browser.

Chromium is driven by Playwright. The other two are what Debian has as `firefox-esr`, and as
`webkit2gtk-driver` with `xvfb`; each listens to the commands of WebDriver by itself, so no package
of a driver is needed. WebKitGTK forgets everything when it ends.
"""

import base64
import http.client
import json
import os
import re
import shutil
import signal
import socket
import subprocess
import threading
import time
from abc import ABC, abstractmethod
from contextlib import suppress
from pathlib import Path
from typing import Any, ClassVar

from playwright.sync_api import Error, Playwright

from pondapp.web import compiled

SIZE = (390, 844)  # of a phone; the windows of the other two stay somewhat wider
PATIENCE = 60.0  # seconds for a browser to come up
ELSEWHERE = "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--enable-unsafe-swiftshader",
    "--disable-background-networking",
    "--disable-component-update",
    ELSEWHERE,
)
PREFERENCES = {
    "marionette.port": 0,
    "datareporting.policy.dataSubmissionEnabled": False,
    "app.update.disabledForTesting": True,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "intl.accept_languages": "en-GB",  # litres and metres
    # What a page says on its console, and what nobody caught, comes out of the program.
    "devtools.console.stdout.content": True,
    "browser.dom.window.dump.enabled": True,
}
# Whom a browser asks on its own behalf, whatever page is open.
CHROMIUM_ASKS = (".google.com", ".googleapis.com", ".gvt1.com")
FIREFOX_ASKS = (".mozilla.com", ".mozilla.org", ".mozilla.net", ".googleapis.com")
# WebKitGTK keeps what a page says to itself, so the page is asked. What is said before the page
# answers is not heard there.
HEAR = """(() => {
  if (window.heard) return true;
  window.heard = [];
  addEventListener("error", (event) => heard.push(String(event.message)));
  addEventListener("unhandledrejection", (event) => heard.push(String(event.reason)));
  addEventListener("securitypolicyviolation", (event) => heard.push(event.blockedURI));
  const plain = console.error;
  console.error = (...said) => { heard.push(said.join(" ")); plain(...said); };
  return true;
})()"""


class Refused(Exception):
    """A browser did not do what it was told: between two pages, mostly, and it is asked again."""


class Elsewhere:
    """All other hosts: what a browser asks of them comes here, is noted, and gets no answer."""

    def __init__(self) -> None:
        self.asked: list[str] = []
        self.door = socket.create_server(("127.0.0.1", 0))
        self.port: int = self.door.getsockname()[1]
        threading.Thread(target=self._note, daemon=True).start()

    def _note(self) -> None:
        with suppress(OSError):  # it is closed
            while True:
                visitor, _ = self.door.accept()
                with visitor, suppress(OSError):
                    visitor.settimeout(10)
                    self.asked.append(visitor.recv(500).partition(b"\r\n")[0].decode("latin-1"))

    def close(self) -> None:
        self.door.close()


class Engine(ABC):
    """One browser with one profile."""

    keeps = True
    """Whether what a site keeps outlives the browser's end."""
    needs: ClassVar[dict[str, str]] = {}
    """Programs that drive it, and the Debian packages that have them."""
    asks_for_itself: tuple[str, ...] = ()
    """Ends of the names of hosts that the browser asks on its own behalf."""

    def __init__(self, profile: Path, elsewhere: Elsewhere | None = None) -> None:
        self.profile, self.elsewhere = profile, elsewhere

    @classmethod
    def lacking(cls) -> str:
        """What to install before it can be driven; empty where nothing is missing."""
        packages = [package for name, package in cls.needs.items() if not shutil.which(name)]
        return f"apt-get install {' '.join(packages)}" if packages else ""

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
    def enter(self, text: str) -> None:
        """Type into what has the focus."""

    @abstractmethod
    def errors(self, address: str) -> list[str]:
        """What the pages below an address have reported as errors since the start."""

    def strangers(self) -> list[str]:
        """What pages asked of other hosts."""
        asked = self.elsewhere.asked if self.elsewhere else []
        hosts = [one.split()[1].removeprefix("http://") for one in asked if " " in one]
        names = [re.split("[:/]", one)[0] for one in hosts]
        return [one for one in names if not one.endswith(self.asks_for_itself)]

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

    asks_for_itself = CHROMIUM_ASKS
    driver: Playwright  # one for all

    def __init__(self, profile: Path, elsewhere: Elsewhere | None = None) -> None:
        super().__init__(profile, elsewhere)
        self.reported: list[str] = []

    @classmethod
    def program(cls) -> str:
        """The one of this computer, or else the driver's own."""
        return compiled.browser() or cls.driver.chromium.executable_path

    @classmethod
    def lacking(cls) -> str:
        return "" if Path(cls.program()).exists() else "apt-get install chromium"

    def start(self) -> None:
        aside = [f"--proxy-server=127.0.0.1:{self.elsewhere.port}"] if self.elsewhere else []
        self.context = self.driver.chromium.launch_persistent_context(
            self.profile,
            executable_path=self.program(),
            args=[*FLAGS, *aside],
            viewport={"width": SIZE[0], "height": SIZE[1]},
            locale="en-GB",
        )
        self.page = self.context.pages[0]
        self.page.on("pageerror", lambda error: self.reported.append(str(error)))
        self.page.on(
            "console",
            lambda said: said.type == "error" and self.reported.append(said.text),
        )

    def visit(self, address: str) -> None:
        self.page.goto(address, wait_until="commit")

    def press(self, x: float, y: float) -> None:
        try:
            self.page.mouse.click(x, y)
        except Error as problem:
            raise Refused(str(problem)) from problem

    def enter(self, text: str) -> None:
        self.page.keyboard.type(text)

    def errors(self, address: str) -> list[str]:  # noqa: ARG002 - no other page was open
        return self.reported

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

    def enter(self, text: str) -> None:
        keys = [{"type": kind, "value": letter} for letter in text for kind in ("keyDown", "keyUp")]
        self.command("PerformActions", actions=[{"type": "key", "id": "keys", "actions": keys}])

    def tell(self, expression: str) -> Any:
        return self.command("ExecuteScript", script=f"return ({expression});", args=[])

    def picture(self, path: Path) -> None:
        path.write_bytes(base64.b64decode(self.command("TakeScreenshot")))

    def _size(self) -> None:
        self.command("SetWindowRect", width=SIZE[0], height=SIZE[1])

    def _run(self, *command: str | Path, **environment: str) -> None:
        self.profile.mkdir(parents=True, exist_ok=True)
        with self._said().open("ab") as said:
            self.process = subprocess.Popen(
                command,
                stdout=said,
                stderr=subprocess.STDOUT,
                start_new_session=True,
                env={**os.environ, **environment},
            )

    def _said(self) -> Path:
        return self.profile / "said.txt"

    def _kill(self) -> None:
        with suppress(ProcessLookupError):
            os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait()


class Firefox(_Remote):
    """Firefox, by its own socket: messages are "length:[kind, number, name, values]"."""

    needs: ClassVar[dict[str, str]] = {"firefox-esr": "firefox-esr"}
    asks_for_itself = FIREFOX_ASKS

    def start(self) -> None:
        self.profile.mkdir(parents=True, exist_ok=True)
        wanted: dict[str, Any] = dict(PREFERENCES)
        if self.elsewhere:
            wanted["network.proxy.type"] = 1
            for kind in ("http", "ssl"):
                wanted[f"network.proxy.{kind}"] = "127.0.0.1"
                wanted[f"network.proxy.{kind}_port"] = self.elsewhere.port
        lines = [f"user_pref({json.dumps(k)}, {json.dumps(v)});" for k, v in wanted.items()]
        (self.profile / "user.js").write_text("\n".join(lines), encoding="utf-8")
        port = self.profile / "MarionetteActivePort"
        port.unlink(missing_ok=True)
        asked = ("--headless", "--marionette", "--profile", self.profile, "about:blank")
        self._run("firefox-esr", *asked)
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

    def errors(self, address: str) -> list[str]:
        # Its own programs report errors too: theirs begin with who they are.
        ours = ('console.error: "', "console.error: ({", f"JavaScript error: {address}")
        lines = self._said().read_text(encoding="utf-8", errors="replace").splitlines()
        return [line for line in lines if line.startswith(ours)]

    def end(self) -> None:
        with suppress(Refused, OSError):
            self.command("Marionette:Quit", flags=["eForceQuit"])
        self.answers.close()
        self.socket.close()
        with suppress(subprocess.TimeoutExpired):
            self.process.wait(20)  # it writes down what was kept
        self._kill()


class WebKit(_Remote):
    """WebKitGTK, by its driver program, on a screen of its own that nobody sees."""

    keeps = False
    needs: ClassVar[dict[str, str]] = {"WebKitWebDriver": "webkit2gtk-driver", "Xvfb": "xvfb"}
    PATHS: ClassVar[dict[str, str]] = {
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
        # Any locale that this computer has, and no other: a browser takes its language from it.
        environment = {"DISPLAY": f":{number}", "LC_ALL": "C.UTF-8"}
        self._run("WebKitWebDriver", f"--port={self.port}", **environment)
        self.session = ""
        self.reported: list[str] = []
        aside = []
        if self.elsewhere:
            aside = [f"--proxy=http://127.0.0.1:{self.elsewhere.port}", "--ignore-host=127.0.0.1"]
        options = {"args": ["--automation", *aside]}
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
        self._harvest()
        super().visit(address)
        deadline = time.monotonic() + PATIENCE
        while time.monotonic() < deadline:
            with suppress(Refused):
                if self.tell("location.href") == address:
                    self.tell(HEAR)
                    return

    def _harvest(self) -> None:
        with suppress(Refused):
            self.reported += self.tell("(window.heard ?? []).splice(0)")

    def errors(self, address: str) -> list[str]:  # noqa: ARG002 - no other page was open
        self._harvest()
        return self.reported

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
