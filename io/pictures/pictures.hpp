// SPDX-License-Identifier: AGPL-3.0-or-later
// Which pictures are made of a case and what is on them.
#pragma once

#include <string>
#include <vector>

#include "io/drawing/scene.hpp"
#include "io/pictures/study_picture.hpp"
#include "solver/result/fields.hpp"

namespace crownproof {

struct VariantRecord;

/// A picture to draw and the ending of its file name, e.g. "crown".
struct NamedScene {
  std::string name;
  Scene scene;
};

/// Three pictures of a bite on one scale: the outside of the crown, the buccolingual section through the
/// point that decides, and the intaglio from below. Of a bench specimen, whole: the loaded side, a section
/// along it, the side away from the load.
std::vector<NamedScene> pictures_of_bite(const VariantRecord& variant, const Fields& fields,
                                         std::size_t bite);

/// The panel of one bite of one variant.
StudyPanel study_panel(const VariantRecord& variant, const Fields& fields, std::size_t bite);

}  // namespace crownproof
