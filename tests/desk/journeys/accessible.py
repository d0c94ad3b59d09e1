"""accessible.py: what a screen reader finds: every main control by its name and its role, and
nothing that one can use without a name of its own.

    xvfb-run -a dbus-run-session -- python3 accessible.py TRUNNION-DESK SOURCE-FOLDER
"""
import sys

from harness import Desk, plan, run

CONTROLS = [
    ("push button", "Open"), ("push button", "Present"), ("push button", "Still"),
    ("push button", "^Menu$"),
    ("page tab list", "View, findings or matrix"), ("page tab", "^View$"),
    ("page tab", "^Findings$"), ("page tab", "^Matrix$"), ("status bar", "not checked"),
    ("push button", "^Check$"), ("list", "^Sequence$"), ("list item", "Hoist .*to spare"),
    ("combo box", "^Lift$"), ("filler", "3D view of the site"), ("push button", "^Plan$"),
    ("push button", "^Fit$"), ("push button", "^Section$"), ("push button", "^Measure$"),
    ("push button", "^Structures$"), ("push button", "^Play$"),
    ("push button", "To the move before"), ("push button", "To the next move"),
    ("push button", "One step back"), ("push button", "One step on"),
    ("push button", "Repeat this move"), ("combo box", "How fast it plays"),
    ("slider", "Clearance over time"), ("push button", "^Closest$"),
    ("push button", "^Saved views$"), ("label", "^At "), ("list item", "keep "),
    ("push button", "^Go there$"), ("push button", "^Show points$"),
]
# What one can press, choose, tick or type in.
ROLES = ["push button", "toggle button", "check box", "radio button", "combo box", "slider", "text",
         "entry", "spin button", "page tab", "link"]


def every_control_has_name_and_role():
    with Desk(plan("changes")) as desk:
        desk.checked()
        for role, name in CONTROLS:
            desk.see(name, role)
        # A name that is the toolkit's own says nothing.
        nameless = [t for t in desk.find(None, "^(Gtk|Adw|Desk)[A-Z]|^$", every=True)
                    if t.role in ROLES]
        nameless = [t for t in nameless
                    if not t.accessible.get_child_count()
                    or t.accessible.get_child_at_index(0).get_role_name() != "push button"]
        nameless = [t for t in nameless if t.name != "GtkToggleButton"]
        assert not nameless, [(t.role, t.name, t.x, t.y) for t in nameless]


def tables_have_name_and_role():
    with Desk(plan("changes")) as desk:
        desk.checked()
        desk.press_until("alt+2", "the findings", lambda: desk.find("tree table", "^Findings$"))
        desk.see("^Margin$", "label")
        desk.press_until("alt+3", "the matrix",
                         lambda: desk.find("table", "^Structures against moves$"))


if __name__ == "__main__":
    sys.exit(run([every_control_has_name_and_role, tables_have_name_and_role]))
