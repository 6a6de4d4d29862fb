// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/model/model.hpp"

#include <memory>

#include "mesh/shape/domain.hpp"

namespace crownproof {

std::shared_ptr<const Domain> no_shape() {
  return std::make_shared<const Domain>();
}

}  // namespace crownproof
