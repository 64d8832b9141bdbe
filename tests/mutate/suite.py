"""The tests of a build as ctest lists them, run one after the other until the first that fails.

Those of the edit's own floor come first, properties last, and among equals the quick ones; those that cannot call the
edited file are left out.
SPDX-License-Identifier: MIT
"""
import json
import os
import resource
import signal
import subprocess
import time

from reach import Reach

LIMIT_S = 120           # a test that takes longer hangs
MEMORY_BYTES = 4 << 30  # an edit may turn a loop into one that asks for ever more
FILE_BYTES = 256 << 20
KNOWN = {"LABELS", "WORKING_DIRECTORY", "ENVIRONMENT", "TIMEOUT", "DEPENDS", "FIXTURES_SETUP", "FIXTURES_REQUIRED"}
ORDER = ("unit", "ref", "case", "team", "ledger", "prop")


class Test:
    def __init__(self, told):
        properties = {entry["name"]: entry["value"] for entry in told["properties"]}
        if "command" not in told or set(properties) - KNOWN:
            raise SystemExit(f"{told['name']}: cannot be run by itself: {sorted(set(properties) - KNOWN)}")
        self.name, self.command = told["name"], told["command"]
        self.labels = properties.get("LABELS", [])
        self.setup = "FIXTURES_SETUP" in properties
        self.folder = properties["WORKING_DIRECTORY"]
        self.environment = dict(word.split("=", 1) for word in properties.get("ENVIRONMENT", []))
        self.seconds, self.reached = 0.0, None

    def run(self):
        """Whether it passes, in the time that it has; what it starts ends with it."""
        started = time.monotonic()
        limit_s = min(LIMIT_S, 20 + 8 * self.seconds) if self.seconds else LIMIT_S
        process = subprocess.Popen(self.command, cwd=self.folder, env={**os.environ, **self.environment}, start_new_session=True,
                                   stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, preexec_fn=_bound)
        try:
            passed = process.wait(limit_s) == 0
        except subprocess.TimeoutExpired:
            passed = False
        finally:
            _end(process)
        self.seconds = self.seconds or time.monotonic() - started
        return passed


def _bound():
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
    resource.setrlimit(resource.RLIMIT_FSIZE, (FILE_BYTES, FILE_BYTES))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _end(process):
    try:
        os.killpg(process.pid, signal.SIGKILL)
    except ProcessLookupError:
        pass
    process.wait()


class Suite:
    def __init__(self, build, labels):
        out = subprocess.run(["ctest", "--test-dir", build, "--show-only=json-v1", "-L", "^(" + "|".join(labels) + ")$"],
                             check=True, capture_output=True, text=True).stdout
        every = [Test(told) for told in json.loads(out)["tests"]]
        self.setups, self.tests = [test for test in every if test.setup], [test for test in every if not test.setup]
        reach = Reach(build)
        for test in self.tests:
            if os.path.dirname(test.command[0]).startswith(os.path.join(build, "tests")) and len(test.command) == 1:
                test.reached = reach.of(test.command[0])
        if not self.tests:
            raise SystemExit(f"no tests are labelled {', '.join(labels)}")

    def targets(self, build):
        """What of the build the tests run."""
        words = {word for test in self.tests for word in test.command if word.startswith(build + os.sep)}
        return sorted(os.path.relpath(word, build) for word in words if os.path.isfile(word))

    def order(self, path):
        floor = path.split("/")[1]

        def rank(test):
            kind, _, rest = test.name.partition(".")
            own = kind in ("unit", "ref") and rest.startswith(floor + ".")
            return not own, ORDER.index(kind) if kind in ORDER else len(ORDER), test.seconds
        concerned = [test for test in self.tests if test.reached is None or path in test.reached or not path.endswith(".c")]
        return sorted(concerned, key=rank)

    def failing(self):
        """The names of all tests that fail, what others need run first; learns how long each takes."""
        return [test.name for test in self.setups + self.tests if not test.run()]

    def first_failing(self, path):
        """The name of the first test that fails when this file was edited, or None."""
        return next((test.name for test in self.order(path) if not test.run()), None)
