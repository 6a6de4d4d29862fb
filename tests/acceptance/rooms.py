#!/usr/bin/env python3
# SPDX-License-Identifier: AGPL-3.0-or-later
"""Holds the tree to its rooms: rooms.py SOURCE_DIR.

Rooms go one way, io -> solver -> mesh. Inside a room a sub-room includes only the folders that its
CMakeLists.txt names (sub_room(MAY_INCLUDE ...)), and those names make no circle. Third-party headers stay in
their rooms. A header stands alone: it is the first thing its own source includes, and one without a source is
compiled by itself. Prints each line that breaks a rule; exit code 1 if there is any.
"""
import os
import re
import subprocess
import sys
import tempfile

ROOMS = ["mesh", "solver", "io"]
# pattern of the header, folders or files where it is at home, why
FENCES = [
    (r"tetgen", r"^mesh/volume/tetrahedralize\.cpp$", "only tetrahedralize knows TetGen"),
    (r"yaml-cpp", r"^io/text/yaml\.cpp$", "only io/text/yaml knows yaml-cpp"),
    (r"vtk", r"^io/", "VTK belongs to io"),
    (r"nlohmann|CLI/", r"^io/", "files and the command line belong to io"),
    (r"(filesystem|fstream|iostream|chrono|ctime|thread)\b", r"^io/", "mesh and solver are pure"),
]
MOST_PAIRS = 25  # header-and-source pairs in one folder


def sources(root):
    for room in ROOMS:
        for folder, _, files in os.walk(os.path.join(root, room)):
            for name in sorted(files):
                if name.endswith((".cpp", ".hpp")):
                    yield os.path.relpath(os.path.join(folder, name), root)


def includes(root, path):
    with open(os.path.join(root, path), encoding="utf-8") as text:
        for number, line in enumerate(text, 1):
            found = re.match(r'\s*#\s*include\s*([<"])([^>"]+)[>"]', line)
            if found:
                yield number, found[1] == '"', found[2]


def allowed_folders(root):
    """What each sub-room says it may include; the top of solver and io may include all of its room."""
    allowed = {}
    for room in ROOMS:
        for folder, _, files in os.walk(os.path.join(root, room)):
            name = os.path.relpath(folder, root)
            if name in ROOMS or "CMakeLists.txt" not in files:
                continue
            with open(os.path.join(folder, "CMakeLists.txt"), encoding="utf-8") as text:
                found = re.search(r"sub_room\(MAY_INCLUDE([^)]*)\)", text.read())
            allowed[name] = set(found[1].split()) if found else set()
    folders = list(allowed)
    allowed["mesh"] = set()
    for top in ("solver", "io"):
        allowed[top] = {folder for folder in folders if folder.startswith(top + "/")}
    return allowed


def circle(graph):
    """The folders of a circle in what folders may include, or nothing."""
    state, path = {}, []

    def visit(folder):
        state[folder] = "open"
        path.append(folder)
        for other in sorted(graph.get(folder, ())):
            if state.get(other) == "open":
                return path[path.index(other):] + [other]
            if other not in state:
                found = visit(other)
                if found:
                    return found
        state[folder] = "done"
        path.pop()
        return None

    for folder in sorted(graph):
        if folder not in state:
            found = visit(folder)
            if found:
                return found
    return None


def check_project_include(path, target, allowed):
    folder, other = os.path.dirname(path), os.path.dirname(target)
    room, other_room = folder.split("/")[0], other.split("/")[0]
    if other_room not in ROOMS:
        return f"{target} is in no room"
    if ROOMS.index(other_room) > ROOMS.index(room):
        return f"{room} may not include {other_room}"
    if other_room == room and other != folder and other not in allowed.get(folder, ()):
        return f"{folder}/CMakeLists.txt does not say that it may include {other}"
    return None


def check_fences(path, target):
    for pattern, home, why in FENCES:
        if re.match(pattern, target) and not re.match(home, path):
            return why
    return None


def check_stands_alone(root, lonely):
    """Compiles the headers that have no source of their own, all in one file a header."""
    with tempfile.TemporaryDirectory() as scratch:
        for header in lonely:
            unit = os.path.join(scratch, "alone.cpp")
            with open(unit, "w", encoding="utf-8") as text:
                text.write(f'#include "{header}"\n')
            done = subprocess.run(
                ["g++", "-std=c++20", "-fsyntax-only", "-fopenmp", f"-I{root}", "-isystem/usr/include/eigen3",
                 "-isystem/usr/include/vtk-9.1", unit], capture_output=True, text=True, check=False)
            if done.returncode != 0:
                yield f"{header}: does not compile alone:\n{done.stderr[:600]}"


def faults(root):
    allowed, pairs, stems = allowed_folders(root), {}, {}
    found = circle(allowed)
    if found:
        yield "folders include each other in a circle: " + " -> ".join(found)
    for path in sources(root):
        stem, kind = os.path.splitext(path)
        stems.setdefault(stem, set()).add(kind)
        pairs.setdefault(os.path.dirname(path), set()).add(stem)
        first = True
        for number, ours, target in includes(root, path):
            why = check_project_include(path, target, allowed) if ours else check_fences(path, target)
            if why:
                yield f"{path}:{number}: {why}"
            if first and kind == ".cpp" and os.path.exists(os.path.join(root, stem + ".hpp")):
                if target != stem + ".hpp":
                    yield f"{path}:{number}: the first include must be {stem}.hpp, to show that it stands alone"
            first = False
    for folder, members in pairs.items():
        if len(members) > MOST_PAIRS:
            yield f"{folder}: {len(members)} header-and-source pairs; at most {MOST_PAIRS} (make a sub-room)"
    yield from check_stands_alone(root, sorted(s + ".hpp" for s, kinds in stems.items() if kinds == {".hpp"}))


if __name__ == "__main__":
    lines = list(faults(sys.argv[1]))
    print("\n".join(lines) if lines else "every include keeps to its room")
    sys.exit(1 if lines else 0)
