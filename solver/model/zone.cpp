// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/model/zone.hpp"

namespace crownproof {

std::string zone_name(Zone zone) {
  switch (zone) {
    case Zone::contact:
      return "contact";
    case Zone::occlusal:
      return "occlusal";
    case Zone::axial:
      return "axial";
    case Zone::finish_line:
      return "finish_line";
    case Zone::intaglio:
      return "intaglio";
    case Zone::surface:
      return "surface";
    case Zone::under_contact:
      return "under_contact";
    case Zone::interior:
      break;
  }
  return "interior";
}

}  // namespace crownproof
