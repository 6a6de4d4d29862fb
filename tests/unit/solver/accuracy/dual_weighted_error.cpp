// SPDX-License-Identifier: AGPL-3.0-or-later
// Where the error that matters lies, on a block of ceramic on dentin pressed from above. Expectations: the
// words of solver/accuracy/dual_weighted_error.hpp; influence decays away from the place it is taken at
// (Saint-Venant), so cells near a deciding peak matter most (Becker & Rannacher 2001).

#include <algorithm>
#include <numeric>
#include <utility>

#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "solver/accuracy/dual_weighted_error.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/zone_peak.hpp"
#include "solver/stress/bite_fields.hpp"
#include "tests/support/mapped_mesh.hpp"
#include "tests/support/sample_case.hpp"

using namespace crownproof;

namespace {

const Vec3 one_place(1.5, 1.5, 1.5), other_place(4.5, 4.5, 1.5);  ///< on the intaglio, 6 x 6 mm

/// The solved block with its first bite only, and no peak in it.
SampleCase one_bite() {
  SampleCase sample = sample_case(4);
  sample.model.accuracy.stress_percent = 5;
  sample.model.bites.resize(1);
  sample.result.fields.bites.resize(1);
  sample.result.report.bites.resize(1);
  sample.result.report.bites[0].peaks.clear();
  return sample;
}

/// A peak on the intaglio in the first bite.
void add_peak(SampleCase& sample, const Vec3& at, double safety_factor, double band_percent = 5,
              Settling settling = Settling::settles) {
  ZonePeak peak;
  peak.zone = Zone::intaglio;
  peak.node = nearest_node(sample.result.fields.mesh, at);
  peak.at = sample.result.fields.mesh.nodes[peak.node];
  peak.safety_factor = safety_factor;
  peak.tension_MPa = 600 / safety_factor;
  peak.relative_uncertainty = band_percent / 100;
  peak.settling = settling;
  peak.mechanism = Mechanism::breaks_across_body;
  sample.result.report.bites[0].peaks.push_back(peak);
}

/// The shares, with a solver made anew as simulate() has one.
std::vector<double> shares_of(const SampleCase& sample, const std::vector<ErrorEstimate>& errors) {
  const Fields& fields = sample.result.fields;
  const ElasticitySolver solver(fields.mesh, fields.region_stiffness, fields.held);
  std::vector<std::vector<ZonePeak>> peaks;
  for (const BiteReport& bite : sample.result.report.bites) peaks.push_back(bite.peaks);
  return deciding_shares(studied_body(sample.model, fields), {fields.bites, peaks, errors}, solver,
                         sample.model.accuracy);
}

std::vector<ErrorEstimate> errors_of(const SampleCase& sample) {
  return bite_errors(studied_body(sample.model, sample.result.fields), sample.result.fields.bites);
}

std::vector<double> shares_of(const SampleCase& sample) {
  return shares_of(sample, errors_of(sample));
}

double sum(const std::vector<double>& shares) {
  return std::accumulate(shares.begin(), shares.end(), 0.0);
}

/// Sum over the cells of a region.
double sum_in(const TetMesh& mesh, const std::vector<double>& shares, const std::string& region) {
  double all = 0;
  for (int c = 0; c < mesh.n_cells(); ++c)
    if (mesh.region_names[mesh.region[c]] == region) all += shares[c];
  return all;
}

/// Everything the bite does, `factor` times as strong.
void press_harder(BiteFields& bite, double factor) {
  bite.displacement *= factor;
  for (auto& region : bite.stress.stress)
    for (Voigt& stress : region) stress *= factor;
}

/// Sum over the cells whose first corner lies within 1.5 mm of a place.
double sum_near(const TetMesh& mesh, const std::vector<double>& shares, const Vec3& place) {
  double near = 0;
  for (int c = 0; c < mesh.n_cells(); ++c)
    if ((mesh.nodes[mesh.cells[c][0]] - place).norm() < 1.5) near += shares[c];
  return near;
}

}  // namespace

TEST_CASE("Shares are parts of a whole", "[dual_weighted_error]") {
  SampleCase sample = one_bite();
  add_peak(sample, one_place, 2);
  const std::vector<double> shares = shares_of(sample);
  REQUIRE(shares.size() == sample.result.fields.mesh.cells.size());
  CHECK(*std::min_element(shares.begin(), shares.end()) >= 0);
  CHECK(sum(shares) == Approx(1));
}

TEST_CASE("Most of what matters lies near the deciding peak, wherever that is", "[dual_weighted_error]") {
  for (const auto& [here, there] : {std::pair{one_place, other_place}, std::pair{other_place, one_place}}) {
    SampleCase sample = one_bite();
    add_peak(sample, here, 2);
    const std::vector<double> shares = shares_of(sample);
    const std::vector<double> even(shares.size(), 1.0 / static_cast<double>(shares.size()));
    CHECK(sum_near(sample.result.fields.mesh, even, here) < 0.12);
    CHECK(sum_near(sample.result.fields.mesh, shares, here) > 0.5);
    CHECK(sum_near(sample.result.fields.mesh, shares, there) < 0.12);
  }
}

TEST_CASE("The body below matters by its influence on the peak, not by its own error",
          "[dual_weighted_error]") {
  SampleCase sample = one_bite();
  CHECK(sum_in(sample.result.fields.mesh, shares_of(sample), "die") == 0);
  add_peak(sample, one_place, 2);
  const double die = sum_in(sample.result.fields.mesh, shares_of(sample), "die");
  CHECK(die > 0.001);
  CHECK(die < 0.5);
}

TEST_CASE("A peak that does not settle, or has no tension, draws no cells", "[dual_weighted_error]") {
  SampleCase sample = one_bite();
  const std::vector<double> no_peak = shares_of(sample);
  add_peak(sample, one_place, 2, 80, Settling::does_not_settle);
  add_peak(sample, other_place, 3);
  sample.result.report.bites[0].peaks[1].tension_MPa = 0;
  CHECK(shares_of(sample) == no_peak);
}

TEST_CASE("Without goals the error of the body under study alone steers", "[dual_weighted_error]") {
  const SampleCase sample = one_bite();
  const TetMesh& mesh = sample.result.fields.mesh;
  const std::vector<double> shares = shares_of(sample);
  std::vector<double> error = errors_of(sample)[0].cell_error;
  for (int c = 0; c < mesh.n_cells(); ++c)
    if (mesh.region_names[mesh.region[c]] != "crown") error[c] = 0;
  REQUIRE(sum(error) > 0);
  for (int c = 0; c < mesh.n_cells(); ++c)
    REQUIRE(shares[c] / sum(shares) == Approx(error[c] / sum(error)).margin(1e-12));
}

TEST_CASE("A peak three times as safe as the weakest draws no cells", "[dual_weighted_error]") {
  SampleCase sample = one_bite();
  add_peak(sample, one_place, 2);
  const std::vector<double> alone = shares_of(sample);
  add_peak(sample, other_place, 6);
  CHECK(shares_of(sample) == alone);
}

TEST_CASE("Of two deciding peaks the one farther from the asked accuracy counts more",
          "[dual_weighted_error]") {
  SampleCase sample = one_bite();
  add_peak(sample, one_place, 2);
  add_peak(sample, other_place, 2);
  const double equal = sum_near(sample.result.fields.mesh, shares_of(sample), other_place);
  sample.result.report.bites[0].peaks[1].relative_uncertainty = 0.2;  // four times what was asked
  const double urgent = sum_near(sample.result.fields.mesh, shares_of(sample), other_place);
  // A half of all goals becomes four fifths.
  CHECK(urgent / equal == Approx(0.8 / 0.5).epsilon(0.1));
  sample.result.report.bites[0].peaks[0].relative_uncertainty = 0.2;
  CHECK(sum_near(sample.result.fields.mesh, shares_of(sample), other_place) == Approx(equal));
}

TEST_CASE("Shares do not depend on how hard the bite is", "[dual_weighted_error]") {
  SampleCase sample = one_bite();
  add_peak(sample, one_place, 2);
  const std::vector<double> before = shares_of(sample);
  press_harder(sample.result.fields.bites[0], 8);
  const std::vector<double> after = shares_of(sample);
  for (std::size_t c = 0; c < before.size(); ++c) REQUIRE(after[c] == Approx(before[c]).margin(1e-12));
}

TEST_CASE("Each bite has its own error, which grows as an energy", "[dual_weighted_error]") {
  SampleCase sample = sample_case(4);
  const std::vector<ErrorEstimate> before = errors_of(sample);
  REQUIRE(before.size() == 2);
  press_harder(sample.result.fields.bites[1], 3);
  const std::vector<ErrorEstimate> after = errors_of(sample);
  CHECK(sum(after[0].cell_error) == sum(before[0].cell_error));
  CHECK(sum(after[1].cell_error) == Approx(9 * sum(before[1].cell_error)));
  CHECK(after[1].relative_error == Approx(before[1].relative_error));
}

TEST_CASE("Every bite with a deciding peak gets its part", "[dual_weighted_error]") {
  SampleCase sample = one_bite();
  add_peak(sample, one_place, 2);
  const double alone = sum_near(sample.result.fields.mesh, shares_of(sample), one_place);
  sample.model.bites.push_back(sample.model.bites[0]);
  sample.result.fields.bites.push_back(sample.result.fields.bites[0]);
  sample.result.report.bites.push_back(sample.result.report.bites[0]);
  sample.result.report.bites[0].peaks.clear();
  add_peak(sample, other_place, 2);  // to the first bite; the second has the other
  const std::vector<double> both = shares_of(sample);
  CHECK(sum(both) == Approx(1));
  CHECK(sum_near(sample.result.fields.mesh, both, one_place) < 0.7 * alone);
  CHECK(sum_near(sample.result.fields.mesh, both, one_place) > 0.25);
  CHECK(sum_near(sample.result.fields.mesh, both, other_place) > 0.25);
}

TEST_CASE("A cell counts only where the peak's own bite has an error", "[dual_weighted_error]") {
  SampleCase sample = one_bite();
  sample.result.fields.bites.push_back(sample.result.fields.bites[0]);
  sample.result.report.bites.push_back(sample.result.report.bites[0]);
  add_peak(sample, one_place, 2);
  std::swap(sample.result.report.bites[0], sample.result.report.bites[1]);  // the second bite has the peak
  const TetMesh& mesh = sample.result.fields.mesh;
  std::vector<ErrorEstimate> errors = errors_of(sample);
  std::vector<double> left(mesh.n_cells());
  for (int c = 0; c < mesh.n_cells(); ++c) left[c] = mesh.nodes[mesh.cells[c][0]].x() < 3 ? 1 : 0;
  for (int c = 0; c < mesh.n_cells(); ++c) errors[left[c] == 1 ? 1 : 0].cell_error[c] = 0;
  const std::vector<double> shares = shares_of(sample, errors);
  // The peak stands on the left, its bite errs on the right; the other bite's error on the left is no goal.
  CHECK(sum(shares) == Approx(1));
  CHECK(std::inner_product(shares.begin(), shares.end(), left.begin(), 0.0) < 0.1);
}
