"""harness.py: starts the desk, presses keys and moves the pointer by xdotool, and reads what is on
the screen through AT-SPI. Whatever is waited for is looked at again and again; nothing sleeps a
fixed time and hopes.

Run below `xvfb-run` and `dbus-run-session`; the first argument is the program, the second the folder
of the source; names of journeys may follow, to take only those.
"""
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi  # noqa: E402

# The bus and its daemons write to standard output as well; the results have a way of their own.
RESULTS = os.fdopen(3, "w") if os.environ.get("TRUNNION_RESULTS_ON_3") else sys.stdout

PATIENCE_S = 30
# Windows stand at the corner of the screen; this much of it is their border.
BORDER_PX = 5
# In the corner of the first window, to which the keys go when another one closes, and beside all
# lists: one that opens below a resting pointer marks what lies there, and not what keys marked.
REST = (1262, 782)


class Lost(Exception):
    """Something did not come about in time."""


def wait_for(what, probe, patience_s=PATIENCE_S):
    """Gives what @probe gives as soon as that is something; what goes while it is read is read
    again."""
    until = time.monotonic() + patience_s
    while True:
        try:
            found = probe()
        except gi.repository.GLib.Error:
            found = None
        if found:
            return found
        if time.monotonic() > until:
            raise Lost(f"never came about: {what}")
        time.sleep(0.1)


def xdotool(*arguments):
    subprocess.run(["xdotool", *[str(a) for a in arguments]], check=True,
                   stdout=subprocess.DEVNULL)


class Thing:
    """A widget as AT-SPI tells of it."""

    def __init__(self, accessible):
        self.accessible = accessible
        self.role = accessible.get_role_name()
        self.name = accessible.get_name() or ""
        # A page of a stack is no widget and has no place of its own.
        self.is_page = "Component" not in accessible.get_interfaces()
        self.x = self.y = self.width = self.height = 0
        if not self.is_page:
            box = Atspi.Component.get_extents(accessible, Atspi.CoordType.WINDOW)
            self.x, self.y, self.width, self.height = box.x, box.y, box.width, box.height

    def has(self, state):
        return self.accessible.get_state_set().contains(state)

    def at(self, across=0.5, down=0.5):
        return (BORDER_PX + self.x + int(self.width * across),
                BORDER_PX + self.y + int(self.height * down))

    def click(self, across=0.5, down=0.5):
        xdotool("mousemove", *self.at(across, down), "click", 1)


class Desk:
    """The program, while a journey lasts."""

    def __init__(self, *plans):
        self.folder = tempfile.mkdtemp(prefix="trunnion-journey-")
        self.clock = None  # the label of the time, when it was found
        xdotool("mousemove", *REST)
        environment = dict(os.environ, XDG_DATA_HOME=self.folder)
        self.process = subprocess.Popen([sys.argv[1], *plans], env=environment,
                                        stderr=subprocess.DEVNULL)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGTERM)
            try:
                self.process.wait(10)
            except subprocess.TimeoutExpired:
                self.process.kill()
                self.process.wait()
        shutil.rmtree(self.folder, ignore_errors=True)

    def path(self, name):
        return os.path.join(self.folder, name)

    def copy(self, name):
        """A copy of tests/plans/@name that may be changed."""
        place = self.path(name + ".trunnion")
        shutil.copy(plan(name), place)
        return place

    def application(self):
        desktop = Atspi.get_desktop(0)
        for i in range(desktop.get_child_count()):
            child = desktop.get_child_at_index(i)
            if child and child.get_process_id() == self.process.pid:
                # What never changes may be remembered, the rest is asked for again.
                Atspi.Accessible.set_cache_mask(child, Atspi.Cache.ROLE | Atspi.Cache.INTERFACES)
                return child
        return None

    def windows(self):
        application = self.application()
        count = application.get_child_count() if application else 0
        children = [application.get_child_at_index(i) for i in range(count)]
        return [c for c in children if c]

    def titles(self):
        return [w.get_name() or "" for w in self.windows()]

    def things(self):
        """All that has a size: pages that are not shown have none."""

        def walk(accessible):
            if accessible is None:
                return
            try:
                thing = Thing(accessible)
                count = accessible.get_child_count()
            except gi.repository.GLib.Error:
                return  # gone while it was looked at
            if not thing.is_page:
                if thing.width <= 0 or thing.height <= 0:
                    return
                yield thing
            for i in range(count):
                try:
                    child = accessible.get_child_at_index(i)
                except gi.repository.GLib.Error:
                    return
                yield from walk(child)

        # What was opened last first.
        for window in reversed(self.windows()):
            yield from walk(window)

    def find(self, role=None, name=None, every=False):
        """By role, and by a name as a regular expression; the first, or all of them."""
        found = (t for t in self.things()
                 if (role is None or t.role == role)
                 and (name is None or re.search(name, t.name)))
        return list(found) if every else next(found, None)

    def see(self, name, role=None):
        return wait_for(f"{role or 'anything'} called {name!r}",
                        lambda: self.find(role, name))

    def see_title(self, name):
        wait_for(f"a window called {name!r}",
                 lambda: any(re.search(name, t) for t in self.titles()))

    def see_no_title(self, name):
        wait_for(f"no window called {name!r}",
                 lambda: self.titles() and not any(re.search(name, t) for t in self.titles()))

    def key(self, *keys):
        xdotool("key", *keys)

    def press_until(self, key, what, probe):
        """Presses a key, again when it seems to have been lost on a busy machine. Only for keys
        that may be pressed twice."""
        for _ in range(4):
            self.key(key)
            try:
                return wait_for(what, probe, 6)
            except Lost:
                pass
        raise Lost(f"{key} did not lead to: {what}")

    def checked(self):
        """The verdict is in the head of the window."""
        return self.see(r"(do not|does not|meet).*not checked", "status bar")

    def time(self):
        """The time of the lift that the transport shows, in seconds."""
        text = self.clock.get_name() if self.clock else None
        if not text:
            self.clock = self.see(r"^\d+:\d\d:\d\d$", "label").accessible
            text = self.clock.get_name()
        hours, minutes, seconds = text.split(":")
        return int(hours) * 3600 + int(minutes) * 60 + int(seconds)

    def time_becomes(self, what, test):
        wait_for(what, lambda: test(self.time()))


def plan(name):
    return os.path.join(sys.argv[2], "tests", "plans", name, "plan.trunnion")


def run(journeys):
    """Each by a desk of its own, told as TAP; one that fails is tried once more, since a busy
    machine loses keys."""
    if len(sys.argv) > 3:
        journeys = [j for j in journeys if j.__name__ in sys.argv[3:]]
    print(f"1..{len(journeys)}", file=RESULTS, flush=True)
    status = 0
    for number, journey in enumerate(journeys, 1):
        begins = time.monotonic()
        for attempt in (1, 2):
            try:
                journey()
                print(f"ok {number} - {journey.__name__} # {time.monotonic() - begins:.1f} s",
                      file=RESULTS, flush=True)
                break
            except (Lost, AssertionError, OSError, subprocess.CalledProcessError) as error:
                print(f"# {journey.__name__}, attempt {attempt}: {error!r}", file=RESULTS, flush=True)
        else:
            print(f"not ok {number} - {journey.__name__}", file=RESULTS, flush=True)
            status = 1
    return status
