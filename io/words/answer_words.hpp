// SPDX-License-Identifier: AGPL-3.0-or-later
// The two answers of a bite: what thickness and material decide, and what presses on the crown.
#pragma once

#include <string>

namespace crownproof {

struct PlaceAnswer;

/// "below: 85 MPa within 3 % on the intaglio, safety factor 10.20; 1e-06 % of fracture from there. ..."
/// `contact`: of the contact zone, not of the bulk.
std::string answer_words(const PlaceAnswer& answer, bool contact);

}  // namespace crownproof
