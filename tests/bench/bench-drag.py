"""bench-drag.py: how many frames a second the desk draws while its time is dragged. Printed, never
asserted on: it depends on the machine and on what else it does.

    ninja bench-drag

Drags the strip to and fro by xdotool, in a window of 1280x720, and prints what the desk measured
(app/desk/loop-watch.h) and the work of the threads that draw. Without a plan it takes a demo and one
of its own whose ten bodies have 100 000 triangles together. A plan with faults is never drawn: this then
waits for the desk to be closed.
"""
import glob
import json
import math
import os
import re
import subprocess
import sys
import tempfile
import time

TICK_S = 1 / os.sysconf("SC_CLK_TCK")
WIDTH, HEIGHT = 1280, 720
# Where the strip is, from the left and from below.
LEFT, RIGHT, ABOVE_BOTTOM = 400, 880, 70
ROUNDS, STEP = 2, 4


def work_s(pid, thread=""):
    """What the threads so called have worked."""
    ticks = 0
    for path in glob.glob(f"/proc/{pid}/task/*/stat"):
        try:
            text = open(path).read()
        except OSError:
            continue
        name, rest = text[text.index("(") + 1:].rsplit(")", 1)
        if name.startswith(thread):
            ticks += sum(int(t) for t in rest.split()[11:13])
    return ticks * TICK_S


def xdotool(*arguments):
    subprocess.run(["xdotool", *[str(a) for a in arguments]], check=True)


def write_balls(folder):
    rings, sides, corners, faces = 72, 70, [], []
    for i in range(rings + 1):
        for k in range(sides):
            up, round_ = math.pi * i / rings, 2 * math.pi * k / sides
            radius = 1 + 0.02 * math.sin(9 * round_) * math.sin(7 * up)
            corners.append((radius * math.sin(up) * math.cos(round_),
                            radius * math.sin(up) * math.sin(round_), radius * math.cos(up)))
    for i in range(rings):
        for k in range(sides):
            a, b = i * sides + k, i * sides + (k + 1) % sides
            faces += [(a, a + sides, b)] * (i > 0) + [(b, a + sides, b + sides)] * (i < rings - 1)
    with open(os.path.join(folder, "ball.obj"), "w") as file:
        file.writelines("v %.5f %.5f %.5f\n" % c for c in corners)
        file.writelines("f %d %d %d\n" % tuple(v + 1 for v in f) for f in faces)
    ball = {"mesh": {"file": "ball.obj", "unit": "m", "up": "z"}}
    plan = {"format": "trunnion-plan", "version": 1, "title": "Ten balls", "keep_clear": 0.5,
            "structures": [dict(ball, id=f"ball-{i}", name=f"Ball {i + 1}",
                                at={"position": [3 * i - 13, 4, 1.2]}) for i in range(9)],
            "components": [dict(ball, id="moved", name="Moved ball", mass=1000, mass_source="estimated",
                                at={"position": [-13, 0, 1.2]})],
            "programme": [{"lift": "along", "component": "moved", "hook_point": [0, 0, 1],
                           "moves": [{"do": "hoist", "by": 1, "seconds": 60},
                                     {"do": "travel", "by": [24, 0], "seconds": 240}]}]}
    path = os.path.join(folder, "balls.trunnion")
    with open(path, "w") as file:
        json.dump(plan, file)
    return path


def wait_until_idle(pid):
    """Or a minute at most."""
    for _ in range(60):
        before = work_s(pid)
        time.sleep(1)
        if work_s(pid) - before < 0.05:
            return


def measure(desk, plan):
    environment = dict(os.environ, TRUNNION_DESK_TIMING="1", TRUNNION_DESK_STALLS="1")
    process = subprocess.Popen([desk, plan], env=environment, stderr=subprocess.PIPE, text=True)
    for line in process.stderr:
        if "CRITICAL" in line:
            print(line, end="")
        if "first frame with a plan" in line:
            break
    wait_until_idle(process.pid)
    y = HEIGHT - ABOVE_BOTTOM
    begins, drawn = time.monotonic(), work_s(process.pid, "llvmpipe")
    xdotool("mousemove", LEFT, y, "mousedown", 1)
    for x in (*range(LEFT, RIGHT, STEP), *range(RIGHT, LEFT, -STEP)) * ROUNDS:
        xdotool("mousemove", x, y)
        time.sleep(0.01)
    xdotool("mouseup", 1)
    took_s, drawn = time.monotonic() - begins, work_s(process.pid, "llvmpipe") - drawn
    xdotool("key", "ctrl+q")
    told = process.stderr.read()
    process.wait()
    print(os.path.basename(plan), f"({took_s:.1f} s of dragging)")
    print(re.sub("(?m)^", "  ", told.rstrip()))
    frames = re.search(r"(\d+) frames while", told)
    if frames:
        print(f"  timing: work of the drawing threads for a frame "
              f"{1000 * drawn / int(frames[1]):.1f} ms")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as place:
        os.environ["XDG_DATA_HOME"] = place
        source = sys.argv[2]
        demo = os.path.join(source, "assets-demo/pump-column/pump-column.trunnion")
        for path in sys.argv[3:] or [demo, write_balls(place)]:
            measure(sys.argv[1], path)
