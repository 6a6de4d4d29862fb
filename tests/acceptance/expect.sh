# SPDX-License-Identifier: AGPL-3.0-or-later
# For the acceptance scripts, which source it: counts what went wrong in $failures.
failures=0

# expect CODE PATTERN COMMAND...: the command ends with CODE and says PATTERN on stderr or stdout.
expect() {
  local code=$1 pattern=$2
  shift 2
  local said
  said=$("$@" 2>&1)
  local got=$?
  if [ "$got" -ne "$code" ] || ! grep -qE -- "$pattern" <<<"$said"; then
    printf 'FAILED: %s\n  exit code %s, wanted %s\n  said: %s\n  wanted: %s\n' "$*" "$got" "$code" "$said" "$pattern"
    failures=$((failures + 1))
  fi
}
