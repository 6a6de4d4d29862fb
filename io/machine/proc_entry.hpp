// SPDX-License-Identifier: AGPL-3.0-or-later
// Figures that the Linux kernel tells in files of /proc.
#pragma once

#include <string>

namespace crownproof {

/// The entry "name:  12345 kB" of a file of /proc, GiB; 0 if there is none.
double proc_entry_GiB(const char* file, const std::string& name);

}  // namespace crownproof
