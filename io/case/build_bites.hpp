// SPDX-License-Identifier: AGPL-3.0-or-later
// The bites of a case placed on a shape.
#pragma once

#include <vector>

namespace crownproof {

struct Bite;
struct CaseFile;
struct Domain;
struct Model;

/// Contacts and antagonists on the outer surface. Throws UserError with the place in the case: unknown
/// landmark, place or patch off the crown, force that does not press.
std::vector<Bite> build_bites(const CaseFile& case_file, const Domain& domain);

/// Small cells where antagonists will touch, added to the sizes of the model.
void add_seat_cells(Model& model);

}  // namespace crownproof
