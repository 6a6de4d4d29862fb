#!/usr/bin/env bash
# SPDX-License-Identifier: AGPL-3.0-or-later
# clang-format on every source; clang-tidy, warnings as errors, on each source that has changed since it was last
# found clean. cmake/tidy_clean.txt keeps the checksums of the clean ones; a source that is not in it has not been
# brought under clang-tidy yet and is counted, not checked.
#
#   bash cmake/check_style.sh                 check (what CI does)
#   bash cmake/check_style.sh --take FILE...  check these as well and enter those that are clean
set -euo pipefail
cd "$(dirname "$0")/.."
list=cmake/tidy_clean.txt
missing=()
for tool in clang-format clang-tidy; do command -v "$tool" >/dev/null || missing+=("$tool"); done
[ ${#missing[@]} -eq 0 ] || { apt-get update -qq && apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null; }

git ls-files '*.cpp' '*.hpp' '*.inl' | xargs clang-format --dry-run --Werror
echo "clang-format: every source has its format"

taking=0
[ "${1:-}" != --take ] || { taking=1; shift; }
to_check=("$@")
while read -r sum file; do
  [ -e "$file" ] || continue
  [ "$(sha256sum <"$file" | cut -d' ' -f1)" = "$sum" ] || to_check+=("$file")
done <"$list"
if [ ${#to_check[@]} -gt 0 ]; then
  # Precompiled headers of the compiler mean nothing to clang.
  cmake -S . -B build/tidy -G Ninja -DCROWNPROOF_PRECOMPILE=OFF >build/tidy.log 2>&1 || { cat build/tidy.log >&2; exit 1; }
  printf '%s\n' "${to_check[@]}" | sort -u | xargs -P "$(nproc)" -n 1 clang-tidy -p build/tidy --quiet --warnings-as-errors='*'
fi
if [ "$taking" -eq 1 ]; then
  { cut -d' ' -f2- "$list" | sed 's/^ *//'; printf '%s\n' "${to_check[@]}"; } | sort -u | while read -r file; do
    [ ! -e "$file" ] || echo "$(sha256sum <"$file" | cut -d' ' -f1) $file"
  done >"$list.new"
  mv "$list.new" "$list"
fi
total=$(git ls-files 'mesh/*.cpp' 'solver/*.cpp' 'io/*.cpp' | wc -l)
echo "clang-tidy: ${#to_check[@]} checked, $(wc -l <"$list") of $total sources are known to be clean"
