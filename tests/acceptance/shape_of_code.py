#!/usr/bin/env python3
# SPDX-License-Identifier: AGPL-3.0-or-later
"""Measures the code of the three rooms: shape_of_code.py SOURCE_DIR [FOLDER ...].

Functions: nine of ten at most 20 lines, none over 45, none with more than six parameters. Files: at most 300
lines. Comments (why, units, sources): 12 to 18 of 100 lines. Test folders: at most 25 files. Prints the figures,
and each place that breaks a rule; exit code 1 if there is any. A function is a definition with a body at the
level of a namespace or a class; its length runs from its name to its closing brace.
"""
import os
import re
import sys

MOST_LINES, USUAL_LINES, MOST_PARAMETERS, FILE_LINES, TEST_FILES = 45, 20, 6, 300, 25
COMMENT_SHARE = (0.12, 0.18)


def blanked(text):
    """The text with comments, strings and preprocessor lines blanked out, line breaks kept."""
    def blank(found):
        return re.sub(r"[^\n]", " ", found[0])
    text = re.sub(r'R"(\w*)\((?:.|\n)*?\)\1"', blank, text)
    text = re.sub(r'//[^\n]*|/\*(?:.|\n)*?\*/|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])+\'', blank, text)
    return re.sub(r"^[ \t]*#(?:[^\n]*\\\n)*[^\n]*", blank, text, flags=re.M)


def matching(text, at, open_, close):
    depth = 0
    for i in range(at, len(text)):
        depth += text[i] == open_
        depth -= text[i] == close
        if depth == 0:
            return i
    return len(text) - 1


def parameters(inside):
    """How many parameters a list between parentheses holds; commas inside brackets do not count."""
    depth, count = 0, 1 if inside.strip() else 0
    for c in inside:
        depth += c in "(<[{"
        depth -= c in ")>]}"
        count += c == "," and depth == 0
    return count


HEAD = re.compile(r"([~\w:]+(?:operator\s*\S+)?)\s*\(")


def functions(text):
    """(name, first line, lines, parameters) of each definition with a body."""
    text, at = blanked(text), 0
    while True:
        brace = text.find("{", at)
        if brace < 0:
            return
        start = max(text.rfind(c, 0, brace) for c in ";{}") + 1
        head = text[start:brace]
        if re.search(r"\b(namespace|struct|class|enum|union|extern)\b[^()]*$", head):
            at = brace + 1  # look inside
            continue
        found = next((m for m in HEAD.finditer(head) if m[1] not in ("if", "for", "while", "switch", "alignas")), None)
        end = matching(text, brace, "{", "}")
        if found and "=" not in head[:found.start()].replace("operator=", ""):
            close = matching(head, found.end() - 1, "(", ")")
            first = text.count("\n", 0, start + found.start()) + 1
            if re.match(r"\s*(const|noexcept|override|->.*|:.*|requires.*|\s)*$", head[close + 1:], flags=re.S):
                # a constructor's initialisers may hold braces: its body is the last one
                while ":" in head[close + 1:].replace("::", "") and re.match(r"\s*(,|\{)", text[end + 1:]):
                    end = matching(text, text.find("{", end + 1), "{", "}")
                yield found[1], first, text.count("\n", 0, end) + 2 - first, parameters(head[found.end():close])
        at = end + 1


def measure(root, folders):
    lengths, faults, lines, comments = [], [], 0, 0
    for folder in folders:
        for place, _, names in os.walk(os.path.join(root, folder)):
            for name in sorted(names):
                if not name.endswith((".cpp", ".hpp", ".inl")):
                    continue
                path = os.path.join(place, name)
                with open(path, encoding="utf-8") as file:
                    text = file.read()
                shown = os.path.relpath(path, root)
                rows = text.split("\n")[:-1]
                lines += len(rows)
                comments += sum("//" in re.sub(r'"(?:\\.|[^"\\])*"', "", row) for row in rows)
                if len(rows) > FILE_LINES:
                    faults.append(f"{shown}: {len(rows)} lines, at most {FILE_LINES}")
                for function, first, length, count in functions(text):
                    lengths.append(length)
                    if length > MOST_LINES:
                        faults.append(f"{shown}:{first}: {function} has {length} lines, at most {MOST_LINES}")
                    if count > MOST_PARAMETERS:
                        faults.append(f"{shown}:{first}: {function} has {count} parameters, at most {MOST_PARAMETERS}")
    return sorted(lengths), faults, lines, comments


def unheard_tests(root):
    """Test names with a semicolon: CMake splits them, and ctest runs neither half."""
    faults = []
    for place, _, names in os.walk(os.path.join(root, "tests")):
        for name in (n for n in names if n.endswith(".cpp")):
            path = os.path.join(place, name)
            with open(path, encoding="utf-8") as file:
                for title in re.findall(r'TEST_CASE\("([^"]*)"', file.read()):
                    if ";" in title:
                        faults.append(f"{os.path.relpath(path, root)}: '{title}' has a semicolon, ctest never runs it")
    return faults


def unguarded_regions(root):
    """Parallel regions outside mesh/parallel.hpp: what is thrown in them would end the program."""
    faults = []
    for folder in ("mesh", "solver", "io"):
        for place, _, names in os.walk(os.path.join(root, folder)):
            for name in (n for n in names if n.endswith((".cpp", ".hpp", ".inl")) and n != "parallel.hpp"):
                path = os.path.join(place, name)
                with open(path, encoding="utf-8") as file:
                    if re.search(r"pragma omp parallel|std::async", file.read()):
                        faults.append(f"{os.path.relpath(path, root)}: a parallel region of its own; use mesh/parallel.hpp")
    return faults


def main(root, folders):
    lengths, faults, lines, comments = measure(root, folders)
    long = sum(length > USUAL_LINES for length in lengths)
    share = comments / lines
    print(f"{len(lengths)} functions, median {lengths[len(lengths) // 2]} lines, "
          f"{100 * (1 - long / len(lengths)):.1f} % at most {USUAL_LINES}, longest {lengths[-1]}; "
          f"{lines} lines, {100 * share:.1f} % with a comment")
    if long > 0.1 * len(lengths):
        faults.append(f"{long} of {len(lengths)} functions have more than {USUAL_LINES} lines, at most one in ten")
    if not COMMENT_SHARE[0] <= share <= COMMENT_SHARE[1]:
        faults.append(f"{100 * share:.1f} % of the lines hold a comment, 12 to 18 are wanted")
    for place, _, names in os.walk(os.path.join(root, "tests", "unit")):
        if len(names) > TEST_FILES:
            faults.append(f"{os.path.relpath(place, root)}: {len(names)} files, at most {TEST_FILES}")
    faults += unheard_tests(root) + unguarded_regions(root)
    print("\n".join(faults))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2:] or ["mesh", "solver", "io"]))
