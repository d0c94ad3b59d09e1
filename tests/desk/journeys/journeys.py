"""journeys.py: what a person does with the desk, from outside: real keys and a real pointer on a
display of its own, and outcomes read from titles, files and AT-SPI.

    xvfb-run -a dbus-run-session -- python3 journeys.py TRUNNION-DESK SOURCE-FOLDER
"""
import os
import re
import struct
import sys

from harness import Desk, plan, run, wait_for, xdotool

CHANGES = "What is added, removed and swapped"


def open_by_typed_path():
    with Desk() as desk:
        desk.see("Open", "push button")
        desk.press_until("ctrl+o", "the dialog", lambda: len(desk.windows()) > 1)
        xdotool("type", "--delay", 15, plan("changes"))
        desk.key("Return")
        desk.see_title(CHANGES)
        desk.checked()


def open_a_demo_by_one_click():
    with Desk() as desk:
        desk.see("Pump column, up-ended", "push button").click()
        desk.see_title("(?i)pump")


def play_and_pause():
    with Desk(plan("changes")) as desk:
        desk.checked()
        begins = desk.time()
        desk.see("^Slower$|^Play$", "push button")
        desk.key("space")
        desk.time_becomes("time runs", lambda now: now > begins)
        # The lift ends at last, and so does playing.
        desk.see("^Play$", "push button")


def drag_the_strip():
    with Desk(plan("between-the-ends")) as desk:
        desk.checked()
        strip = desk.see("Clearance over time", "slider")
        xdotool("mousemove", *strip.at(0.4), "mousedown", 1)
        for step in range(5):
            xdotool("mousemove", *strip.at(0.5 + 0.08 * step))
        xdotool("mouseup", 1)
        desk.time_becomes("time follows the pointer", lambda now: now > 0)
        late = desk.time()
        desk.press_until("Home", "the start", lambda: desk.time() == 0)
        assert late > 0


def jump_to_the_closest_moment():
    with Desk(plan("between-the-ends")) as desk:
        desk.checked()
        desk.press_until("End", "the end", lambda: desk.time() > 0)
        end = desk.time()
        desk.press_until("w", "the worst", lambda: desk.time() < end)
        desk.see("least .* keep ", "label")
        desk.press_until("Home", "the start", lambda: desk.time() == 0)
        desk.press_until("c", "the closest moment of the first move",
                         lambda: desk.find("label", r"move 1\b"))


def save_a_still(desk, name):
    place = desk.path(name)
    desk.press_until("ctrl+shift+s", "the dialog",
                     lambda: len(desk.windows()) > 1)
    desk.see("^Save as", "push button")
    desk.key("Return")
    desk.see("^_?Name:")
    desk.key("ctrl+a")
    xdotool("type", "--delay", 15, place)
    desk.key("Return")
    wait_for("the picture", lambda: os.path.exists(place) and os.path.getsize(place) > 0)
    with open(place, "rb") as file:
        data = file.read()
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    width, height = struct.unpack(">II", data[16:24])
    assert width > 300 and height > 300
    wait_for("the dialog is gone", lambda: len(desk.windows()) == 1)
    return data


def still_and_section():
    """A picture to a file; with the section on, another picture."""
    with Desk(plan("drum-into-shaft")) as desk:
        desk.checked()
        whole = save_a_still(desk, "whole.png")
        desk.key("s")
        desk.see("^Section$", "push button").click()
        wait_for("the section is on", lambda: any(
            t.has(Atspi.StateType.CHECKED) for t in desk.find(None, "^Cut open$", every=True)))
        desk.key("Escape")
        wait_for("the panel is gone", lambda: not desk.find(None, "^Cut open$"))
        assert save_a_still(desk, "cut.png") != whole


def measure_between_points():
    with Desk(plan("drum-into-shaft")) as desk:
        desk.checked()
        view = desk.see("3D view", "filler")
        xdotool("mousemove", *view.at(0.5, 0.55))
        desk.key("m")
        desk.see("first point")
        view.click(0.5, 0.55)
        desk.see("second point")
        view.click(0.6, 0.7)
        desk.see("first point")
        desk.press_until("Escape", "measuring is over", lambda: not desk.find(None, "first point"))


def present_and_leave():
    with Desk(plan("changes")) as desk:
        desk.checked()
        desk.press_until("F5", "presenting", lambda: "Presenting" in desk.titles())
        desk.see("Move 1 of ")
        desk.see("Planning aid")
        desk.key("Right", "Right")
        desk.see("Move 2 of ")
        desk.key("c")
        desk.see("spare|Short|Clear|Touching|Tight", "label")
        desk.key("Escape")
        desk.see_no_title("Presenting")
        desk.see("^Sequence$", "label")


def findings_by_keyboard():
    """The table is sorted worst first; Return on a row goes to its moment."""
    with Desk(plan("between-the-ends")) as desk:
        desk.checked()
        desk.press_until("alt+2", "the table", lambda: desk.find("table row"))
        rows = desk.find("table row", every=True)
        assert len(rows) >= 2
        rows[1].click(0.1)
        desk.key("Return")
        desk.press_until("alt+1", "the view", lambda: desk.find("slider", "Clearance over time"))
        desk.time_becomes("the moment of the finding", lambda now: now > 0)


def matrix_by_click():
    with Desk(plan("between-the-ends")) as desk:
        desk.checked()
        desk.press_until("alt+3", "the matrix",
                         lambda: desk.find("table", "^Structures against moves"))
        cells = wait_for("its cells", lambda: [
            b for b in desk.find("push button", r"m\b|Short|spare|clear|Clear", every=True)
            if b.y > desk.find("table", "^Structures against moves").y])
        cells[0].click()
        desk.press_until("alt+1", "the view", lambda: desk.find("slider", "Clearance over time"))
        desk.see("least .* keep ", "label")


def faulty_plan_is_put_right():
    with Desk() as desk:
        place = desk.copy("changes")
        with open(place, encoding="utf-8") as file:
            text = file.read()
        with open(place, "w", encoding="utf-8") as file:
            file.write(re.sub(r'"moves"', '"moved"', text, count=1))
        desk.see("Open", "push button")
        desk.press_until("ctrl+o", "the dialog", lambda: len(desk.windows()) > 1)
        xdotool("type", "--delay", 15, place)
        desk.key("Return")
        desk.see("cannot be shown")
        with open(place, "w", encoding="utf-8") as file:
            file.write(text)
        desk.press_until("ctrl+r", "the plan", lambda: desk.find("label", "^Sequence$"))


def changed_on_disk():
    with Desk() as desk:
        place = desk.copy("changes")
        desk.see("Open", "push button")
        desk.press_until("ctrl+o", "the dialog", lambda: len(desk.windows()) > 1)
        xdotool("type", "--delay", 15, place)
        desk.key("Return")
        desk.checked()
        with open(place, encoding="utf-8") as file:
            text = file.read()
        with open(place, "w", encoding="utf-8") as file:
            file.write(text.replace(CHANGES, "Another title for what"))
        desk.see("was changed on disk", "label")
        desk.press_until("ctrl+r", "the new title",
                         lambda: any("Another title" in t for t in desk.titles()))


def is_marked(desk, name):
    """Whether the keys are at the row of a list that has this label in it."""
    label = desk.find("label", name)
    return label and any(row.y <= label.y < row.y + row.height
                         for row in desk.find("list item", every=True)
                         if row.has(Atspi.StateType.FOCUSED))


def units_are_chosen():
    with Desk(plan("changes")) as desk:
        desk.checked()
        desk.press_until("ctrl+comma", "the preferences", lambda: "Preferences" in desk.titles())
        desk.see("^Lengths$", "label")
        desk.press_until("space", "the list of units", lambda: desk.find("label", "^Feet"))
        desk.press_until("Down", "feet are marked", lambda: is_marked(desk, "^Feet"))
        desk.key("Return")
        desk.see("\u2032|\u2033", "label")
        desk.press_until("Escape", "they are closed",
                         lambda: "Preferences" not in desk.titles())


def close():
    with Desk(plan("changes")) as desk:
        desk.see_title(CHANGES)
        desk.press_until("ctrl+shift+w", "the start page",
                         lambda: desk.find("push button", "Pump column"))
        desk.key("ctrl+w")
        wait_for("the program ends", lambda: desk.process.poll() is not None)
        assert desk.process.returncode == 0


if __name__ == "__main__":
    from gi.repository import Atspi
    sys.exit(run([open_by_typed_path, open_a_demo_by_one_click, play_and_pause, drag_the_strip,
                  jump_to_the_closest_moment, still_and_section, measure_between_points,
                  present_and_leave, findings_by_keyboard, matrix_by_click,
                  faulty_plan_is_put_right, changed_on_disk, units_are_chosen, close]))
