#!/usr/bin/env bash
# SPDX-License-Identifier: AGPL-3.0-or-later
# Includes go io -> solver -> mesh and never back; third-party headers stay in their rooms. Prints each line
# that breaks the rule.
set -u
cd "$(dirname "$0")/../.."
bad=0
forbid() {  # forbid WHERE PATTERN WHY [allowed file names, |-separated]
  local hits
  hits=$(grep -rnE "^\s*#\s*include\s*[<\"]($2)" $1 --include='*.hpp' --include='*.cpp' | grep -vE "/(${4:-none})\.(hpp|cpp):")
  [ -z "$hits" ] || { echo "$3:"; echo "$hits"; bad=1; }
}
forbid mesh 'solver/|io/' 'mesh may not include solver or io'
forbid solver 'io/' 'solver may not include io'
forbid 'mesh solver' 'vtk|yaml-cpp|nlohmann|CLI|filesystem|fstream|iostream|chrono|ctime|thread' 'files, terminal, clock and their libraries belong to io'
forbid 'mesh solver io' 'tetgen' 'only mesh/tetrahedralize knows TetGen' 'tetrahedralize'
forbid io 'yaml-cpp' 'only io/yaml knows yaml-cpp' 'yaml'
long=$(find mesh solver io -name '*.[ch]pp' -exec wc -l {} + | awk '$2 != "total" && $1 > 300')
[ -z "$long" ] || { echo 'files over 300 lines (split along the theory):'; echo "$long"; bad=1; }
exit $bad
