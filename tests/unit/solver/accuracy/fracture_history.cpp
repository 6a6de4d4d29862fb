// SPDX-License-Identifier: AGPL-3.0-or-later
// Sequences of risk with a known limit: R = R0 exp(c h^p), whose band must hold R0 (Richardson).

#include <cmath>

#include <catch2/catch.hpp>

#include "solver/accuracy/fracture_history.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/fracture_probability.hpp"
#include "solver/stress/stress_field.hpp"
#include "tests/support/sample_case.hpp"

using namespace crownproof;

namespace {

/// The band of a bite from its risks on meshes of so many cells; `contact_share` of the risk comes from a
/// contact whose tension is known within 10 %.
RiskBand band_of(const std::vector<std::pair<int, double>>& cells_and_risk, double modulus = 10,
                 double contact_share = 0) {
  FractureProbability fracture;
  PopulationRisk population;
  population.modulus = modulus;
  population.risk = cells_and_risk.back().second;
  population.zone_share.assign(n_zones, 0);
  population.zone_share[static_cast<std::size_t>(Zone::contact)] = contact_share;
  population.zone_share[static_cast<std::size_t>(Zone::intaglio)] = 1 - contact_share;
  fracture.populations = {population};
  std::vector<Pass> passes;
  for (const auto& [cells, risk] : cells_and_risk) {
    Pass pass;
    pass.cells = cells;
    pass.risk = {risk};
    pass.peaks = {{ZonePeak{.zone = Zone::contact, .relative_uncertainty = 0.1}}};
    passes.push_back(pass);
  }
  return risk_band(passes, 0, fracture);
}

}  // namespace

TEST_CASE("The band of the risk holds the limit of a converging sequence", "[fracture_history]") {
  const double order = GENERATE(1.0, 2.0, 2.8);
  std::vector<std::pair<int, double>> seen;
  for (const int cells : {20000, 45000, 100000})
    seen.emplace_back(cells, 1e-4 * std::exp(0.8 * std::pow(20000.0 / cells, order / 3)));
  const RiskBand band = band_of(seen);
  CHECK(band.settling == Settling::settles);
  const double error = std::log(seen.back().second / 1e-4);
  CHECK(std::log(band.factor) >= error);
  CHECK(std::log(band.factor) <= 2.5 * error);
}

TEST_CASE("A risk that grows with every mesh does not settle", "[fracture_history]") {
  const RiskBand band = band_of({{20000, 1e-4}, {45000, 2e-4}, {100000, 4e-4}});
  CHECK(band.settling == Settling::does_not_settle);
}

TEST_CASE("One mesh alone is known by a rule of thumb that grows with the modulus", "[fracture_history]") {
  CHECK(band_of({{100000, 1e-4}}, 10).factor == Approx(std::exp(0.1)));
  CHECK(band_of({{100000, 1e-4}}, 20).factor == Approx(std::exp(0.2)));
  CHECK(band_of({{100000, 1e-4}}).settling == Settling::one_pass);
}

TEST_CASE("Two meshes: three times the change over what an order of 2 would still add",
          "[fracture_history]") {
  // 8 times the cells: cells half as large, so the rest is a third of the change; Roache's safety factor
  // is 3.
  const RiskBand band = band_of({{20000, 1e-6}, {160000, 4e-6}});
  CHECK(band.factor == Approx(4));
  CHECK(band.settling == Settling::two_passes);
}

TEST_CASE("Risk from a contact is as uncertain as its tension to the power of the modulus",
          "[fracture_history]") {
  const std::vector<std::pair<int, double>> steady{{20000, 1e-6}, {160000, 1e-6}};
  CHECK(band_of(steady, 10, 1).factor == Approx(std::exp(10 * 0.1)));
  CHECK(band_of(steady, 10, 0).factor == Approx(std::exp(10 * 0.005)));
  CHECK(band_of(steady, 10, 0.5).factor > 1.4);
}

TEST_CASE("Risks of populations add", "[fracture_history]") {
  FractureProbability fracture;
  fracture.populations.resize(2);
  fracture.populations[0].risk = 0.2;
  fracture.populations[1].risk = 0.1;
  CHECK(total_risk(fracture) == Approx(0.3));
}

TEST_CASE("A material without statistics has no risk to follow", "[fracture_history]") {
  SampleCase sample = sample_case(2);
  for (RegionMaterial& m : sample.model.materials)
    if (m.material.strength) m.material.strength->in_layer.weibull_modulus = 0;
  const Fields& fields = sample.result.fields;
  const StudiedBody body = studied_body(sample.model, fields);
  CHECK(fracture_risks(body, {recovered_field(fields.mesh, fields.bites[0].stress, body.region)}).empty());
}
