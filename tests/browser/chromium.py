"""A headless Chromium driven over its own protocol by a pair of pipes. Nothing but Python's standard library.

SPDX-License-Identifier: MIT
"""
import base64
import json
import os
import select
import shutil
import signal
import tempfile
import time

FLAGS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-extensions", "--no-first-run",
         "--no-default-browser-check", "--disable-sync", "--disable-component-update", "--disable-dev-shm-usage", "--mute-audio",
         "--hide-scrollbars", "--remote-debugging-pipe"]
PATIENCE_S = 60


class Browser:
    """One browser with one page. Use it in a `with`."""

    def __init__(self, program="/usr/bin/chromium"):
        self.profile = tempfile.mkdtemp(prefix="plimsoll-browser-")
        theirs_in, self.write = os.pipe()
        self.read, theirs_out = os.pipe()
        quiet = os.open(os.devnull, os.O_WRONLY)
        environment = {"HOME": self.profile, "PATH": "/usr/bin:/bin", "LC_ALL": "C.UTF-8", "TZ": "UTC"}
        self.pid = os.posix_spawn(program, [program, *FLAGS, f"--user-data-dir={self.profile}", "about:blank"], environment, setpgroup=0, file_actions=[
            (os.POSIX_SPAWN_DUP2, theirs_in, 3), (os.POSIX_SPAWN_DUP2, theirs_out, 4),
            (os.POSIX_SPAWN_DUP2, quiet, 1), (os.POSIX_SPAWN_DUP2, quiet, 2)])
        for end in (theirs_in, theirs_out, quiet):
            os.close(end)
        self.number, self.rest, self.events, self.session = 0, b"", [], None
        target = self.ask("Target.createTarget", url="about:blank")["targetId"]
        self.session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Network", "Log", "Accessibility"):
            self.ask(f"{domain}.enable")

    def __enter__(self):
        return self

    def __exit__(self, *_):
        try:
            os.killpg(self.pid, signal.SIGKILL)
        except ProcessLookupError:
            pass
        os.waitpid(self.pid, 0)
        os.close(self.write)
        os.close(self.read)
        for _ in range(20):
            shutil.rmtree(self.profile, ignore_errors=True)
            if not os.path.exists(self.profile):
                break
            time.sleep(0.05)

    def message(self):
        """The next message; events are kept in their order."""
        while b"\0" not in self.rest:
            if not select.select([self.read], [], [], PATIENCE_S)[0]:
                raise TimeoutError("the browser is silent")
            got = os.read(self.read, 1 << 20)
            if not got:
                raise EOFError("the browser is gone")
            self.rest += got
        first, self.rest = self.rest.split(b"\0", 1)
        return json.loads(first)

    def ask(self, method, **parameters):
        self.number += 1
        question = {"id": self.number, "method": method, "params": parameters}
        if self.session:
            question["sessionId"] = self.session
        data = json.dumps(question).encode() + b"\0"
        while data:
            data = data[os.write(self.write, data):]
        while True:
            message = self.message()
            if message.get("id") == self.number:
                if "error" in message:
                    raise RuntimeError(f"{method}: {message['error']}")
                return message["result"]
            self.events.append(message)

    def wait(self, event):
        """Until an event has come since the last `open`."""
        while not any(one.get("method") == event for one in self.events):
            self.events.append(self.message())

    def open(self, url):
        self.events = []
        self.ask("Page.navigate", url=url)
        self.wait("Page.loadEventFired")

    def value(self, expression):
        found = self.ask("Runtime.evaluate", expression=expression, returnByValue=True, awaitPromise=True)
        if "exceptionDetails" in found:
            raise RuntimeError(found["exceptionDetails"])
        return found["result"].get("value")

    def window(self, width, height, dark=False, scale=1, mobile=False):
        self.ask("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=scale, mobile=mobile)
        self.ask("Emulation.setEmulatedMedia", features=[{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}])

    def key(self, key, shift=False):
        for kind in ("rawKeyDown", "keyUp"):
            self.ask("Input.dispatchKeyEvent", type=kind, key=key, code=key, windowsVirtualKeyCode=KEYS[key], modifiers=8 if shift else 0)

    def picture(self, path, whole=True):
        shot = self.ask("Page.captureScreenshot", format="png", captureBeyondViewport=whole)
        with open(path, "wb") as file:
            file.write(base64.b64decode(shot["data"]))

    def pdf(self, path):
        with open(path, "wb") as file:
            file.write(base64.b64decode(self.ask("Page.printToPDF", preferCSSPageSize=True, printBackground=True)["data"]))


KEYS = {"ArrowLeft": 37, "ArrowUp": 38, "ArrowRight": 39, "ArrowDown": 40, "Home": 36, "End": 35, "PageUp": 33, "PageDown": 34, "Tab": 9}
