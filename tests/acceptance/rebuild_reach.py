#!/usr/bin/env python3
# SPDX-License-Identifier: AGPL-3.0-or-later
"""How many objects a change of each header rebuilds: rebuild_reach.py SOURCE_DIR BUILD_DIR [MOST].

Reads the dependencies that ninja noted when it built. Prints the headers that reach most; with MOST, exit code 1
if a header beside the ten that reach most (the basic ones) reaches more objects.
"""
import os
import subprocess
import sys

ROOMS = ("mesh/", "solver/", "io/")
BASIC = 10


def reach(source, build):
    count = {}
    text = subprocess.run(["ninja", "-C", build, "-t", "deps"], capture_output=True, text=True, check=True).stdout
    for line in text.split("\n"):
        if not line.startswith(" "):
            continue
        path = os.path.relpath(os.path.join(build, line.strip()), source)
        if path.startswith(ROOMS) and path.endswith((".hpp", ".inl")):
            count[path] = count.get(path, 0) + 1
    return sorted(count.items(), key=lambda item: (-item[1], item[0]))


def main(source, build, most):
    headers = reach(os.path.realpath(source), os.path.realpath(build))
    for path, objects in headers[:25]:
        print(f"{objects:5} {path}")
    far = [f"{path} reaches {objects} objects, at most {most}" for path, objects in headers[BASIC:]
           if most and objects > most]
    print("\n".join(far))
    return 1 if far else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else 0))
