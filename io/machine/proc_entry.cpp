// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/machine/proc_entry.hpp"

#include <fstream>
#include <limits>

namespace crownproof {

double proc_entry_GiB(const char* file, const std::string& name) {
  std::ifstream in(file);
  for (std::string word; in >> word;) {
    double kB = 0;
    if (word == name + ":" && in >> kB) return kB / (1024.0 * 1024);
    in.ignore(std::numeric_limits<std::streamsize>::max(), '\n');
  }
  return 0;
}

}  // namespace crownproof
