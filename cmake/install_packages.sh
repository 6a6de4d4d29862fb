#!/usr/bin/env bash
# SPDX-License-Identifier: AGPL-3.0-or-later
# Installs the Debian 12 packages that are missing, as root or through sudo; without either it prints the line
# to run. Says nothing and takes a moment when all are there.
set -euo pipefail

packages=(
  g++ cmake ninja-build git ca-certificates     # build tools
  libeigen3-dev libtet1.5-dev libyaml-cpp-dev   # algebra, tetrahedra, case files
  libfmt-dev libcli11-dev nlohmann-json3-dev    # text, command line, JSON
  libvtk9-dev libegl-dev libglew-dev libgl-dev  # pictures, without a display
  libegl1 libegl-mesa0 libgl1-mesa-dri
  libcairo2-dev zlib1g-dev fonts-dejavu-core    # words and lines of pictures
  catch2 python3                                # tests
)

missing=()
for package in "${packages[@]}"; do
  dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'install ok installed' || missing+=("$package")
done
[ ${#missing[@]} -gt 0 ] || exit 0

line="apt-get install -y --no-install-recommends ${missing[*]}"
if ! command -v apt-get >/dev/null; then
  echo "crownproof: these Debian 12 packages are needed: ${missing[*]}" >&2
  exit 1
elif [ "$(id -u)" -eq 0 ]; then
  as_root=()
elif command -v sudo >/dev/null && { sudo -n true 2>/dev/null || [ -t 0 ]; }; then
  as_root=(sudo)
else
  printf 'crownproof: some packages are missing. Run this as root, then try again:\n  apt-get update && %s\n' "$line" >&2
  exit 1
fi
echo "Installing ${#missing[@]} packages: ${missing[*]}"
"${as_root[@]}" apt-get update -qq
"${as_root[@]}" env DEBIAN_FRONTEND=noninteractive $line
