// SPDX-License-Identifier: AGPL-3.0-or-later
// Whoever follows what a refusal of a shape advises must get on: the size it names is never refused again for
// the same reason, and in the end there is a crown.
#include <array>
#include <functional>
#include <map>
#include <optional>
#include <random>
#include <regex>
#include <string>

#include <catch2/catch.hpp>

#include "mesh/crown/crown_design.hpp"
#include "mesh/crown/tooth_classes.hpp"
#include "mesh/geometry_error.hpp"

using namespace crownproof;

namespace {

using Set = std::function<void(CrownParameters&, double)>;

/// How each size that a refusal may name is set, in the unit of the message.
const std::map<std::string, Set>& setters() {
  using P = CrownParameters;
  static const std::map<std::string, Set> all{
      {"mesiodistal size", [](P& p, double v) { p.mesiodistal_mm = v; }},
      {"buccolingual size", [](P& p, double v) { p.buccolingual_mm = v; }},
      {"crown height", [](P& p, double v) { p.height_mm = v; }},
      {"cusp height", [](P& p, double v) { p.cusp_height_mm = v; }},
      {"fissure depth", [](P& p, double v) { p.fissure_depth_mm = v; }},
      {"occlusal thickness", [](P& p, double v) { p.occlusal_thickness_mm = v; }},
      {"axial thickness", [](P& p, double v) { p.axial_thickness_mm = v; }},
      {"finish line width", [](P& p, double v) { p.finish_line.width_mm = v; }},
      {"inner radius of the finish line", [](P& p, double v) { p.finish_line.inner_radius_mm = v; }},
      {"total occlusal convergence", [](P& p, double v) { p.total_occlusal_convergence_deg = v; }},
      {"line angle radius", [](P& p, double v) { p.line_angle_radius_mm = v; }},
      {"root height", [](P& p, double v) { p.root_height_mm = v; }},
      {"cement thickness (0 for none)", [](P& p, double v) { p.cement_thickness_mm = v; }},
      {"cement thickness", [](P& p, double v) { p.cement_thickness_mm = 1e-3 * v; }}};
  return all;
}

/// What a person who reads the refusal does, and the name of what was refused.
std::string follow(const std::string& text, CrownParameters& p) {
  std::smatch found;
  if (std::regex_search(text, found,
                        std::regex("^The (.+) is (\\S+) \\S+; it must lie between (\\S+) and (\\S+) "))) {
    const double asked = std::stod(found[2]), low = std::stod(found[3]), high = std::stod(found[4]);
    setters().at(found[1])(p, asked < low ? low : high);
    return found[1];
  }
  if (std::regex_search(text, found,
                        std::regex("^The (.+) of \\S+ (?:mm|um) cannot be had: .*The largest possible here "
                                   "is (\\S+) mm"))) {
    setters().at(found[1])(p, std::stod(found[2]));
    return found[1];
  }
  if (std::regex_search(text, found, std::regex("^The (cement thickness) of .* at most (\\S+) um"))) {
    setters().at(found[1])(p, std::stod(found[2]));
    return found[1];
  }
  REQUIRE(std::regex_search(text, found,
                            std::regex("^The (.+) of \\S+ mm cannot be had: .*None from \\S+ mm up is "
                                       "possible here: make the crown wider or higher, or its other")));
  p = {.tooth = p.tooth, .occlusal_thickness_mm = 0.5, .axial_thickness_mm = 0.5};
  p.finish_line.width_mm = 0.3;
  return std::string(found[1]) + " (others made smaller)";
}

/// Sizes within and beyond what is possible.
CrownParameters random_wish(std::mt19937& random) {
  const auto any = [&](double low, double high) { return std::uniform_real_distribution(low, high)(random); };
  CrownParameters p;
  const auto& classes = tooth_classes();
  p.tooth = classes[random() % classes.size()].name;
  if (random() % 3 == 0) p.mesiodistal_mm = any(3, 16);
  if (random() % 3 == 0) p.buccolingual_mm = any(3, 16);
  if (random() % 3 == 0) p.height_mm = any(2, 17);
  if (random() % 3 == 0) p.cusp_height_mm = any(0.1, 6);
  p.occlusal_thickness_mm = any(0.1, 5);
  p.axial_thickness_mm = any(0.2, 3);
  p.finish_line.form =
      std::array{FinishLineForm::chamfer, FinishLineForm::shoulder, FinishLineForm::knife_edge}[random() % 3];
  p.finish_line.width_mm = any(0.2, 1.8);
  p.total_occlusal_convergence_deg = any(1, 42);
  p.cement_thickness_mm = any(0.005, 0.35);
  return p;
}

/// Steps of advice until there is a crown; nothing if that never comes.
std::optional<int> steps_to_a_crown(CrownParameters p) {
  for (int step = 0; step < 15; ++step) {
    try {
      design_crown(p);
      return step;
    } catch (const GeometryError& refusal) {
      INFO("refused: " << refusal.what());
      const std::string first = follow(refusal.what(), p);
      CAPTURE(first);
    }
  }
  return std::nullopt;
}

}  // namespace

TEST_CASE("Advice of every refusal of a shape can be followed to a crown", "[crown_limits][slow]") {
  std::mt19937 random(20261127);
  int refused = 0;
  for (int i = 0; i < 40; ++i) {
    CAPTURE(i);
    const auto steps = steps_to_a_crown(random_wish(random));
    REQUIRE(steps);
    refused += *steps > 0;
  }
  CHECK(refused > 20);
}
