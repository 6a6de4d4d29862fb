// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/result/fields.hpp"

#include "solver/model/model.hpp"
#include "solver/model/studied_body.hpp"

namespace crownproof {

StudiedBody studied_body(const Model& model, const Fields& fields) {
  return {fields.mesh,
          fields.mesh.region_index(region_under_study(model)),
          material_under_study(model),
          fields.region_stiffness,
          {},
          fields.copies};
}

}  // namespace crownproof
