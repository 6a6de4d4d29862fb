// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench/bench_analysis.hpp"

#include <set>

#include "io/text/nearest_key.hpp"
#include "mesh/model_error.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/strength/specimen_size.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {
namespace {

bool same_test(const BenchSpecimen& a, const BenchSpecimen& b) {
  return a.test == b.test && a.layer_normal == b.layer_normal && a.layer_tilt_deg == b.layer_tilt_deg;
}

/// The test and build direction all rows of a group share, with mean sizes.
std::optional<BenchSpecimen> common_specimen(const BenchFile& bench, const std::string& name) {
  std::optional<BenchSpecimen> mean;
  double n = 0;
  const std::vector<double BenchSpecimen::*> sizes{&BenchSpecimen::width_mm,
                                                   &BenchSpecimen::thickness_mm,
                                                   &BenchSpecimen::length_mm,
                                                   &BenchSpecimen::span_mm,
                                                   &BenchSpecimen::inner_span_mm,
                                                   &BenchSpecimen::diameter_mm,
                                                   &BenchSpecimen::support_diameter_mm,
                                                   &BenchSpecimen::loading_diameter_mm,
                                                   &BenchSpecimen::poisson};
  for (const BenchRow& row : bench.rows) {
    if (row.group != name) continue;
    if (!row.specimen || (mean && !same_test(*mean, *row.specimen))) return std::nullopt;
    if (!mean) {
      mean = row.specimen;
    } else {
      for (const auto size : sizes) (*mean).*size += (*row.specimen).*size;
    }
    ++n;
  }
  if (mean)
    for (const auto size : sizes) (*mean).*size /= n;
  return mean;
}

/// Flaws that lie every way: a table says nothing of how they feel the layers.
std::optional<SizeByModulus> size_of(const std::optional<BenchSpecimen>& specimen, FlawKind flaws) {
  if (!specimen || specimen->test == BenchTest::compression) return std::nullopt;
  return SizeByModulus([&](const std::vector<double>& moduli) {
    return effective_sizes(*specimen, moduli, flaws, principal_tensions());
  });
}

void fit(BenchGroupResult& r) {
  try {
    r.fit = fit_weibull(r.group.specimens);
    r.bounds = weibull_bounds(r.group.specimens, *r.fit);
    r.low = low_strength_bounds(r.group.specimens);
  } catch (const ModelError& reason) {
    r.why_not = reason.what();
  }
  if (r.fit && r.fit->n() >= 5 && r.fit->n_broken >= 2)
    r.goodness = goodness_of_fit(r.group.specimens, *r.fit);
}

BenchGroupResult analyse_group(const BenchFile& bench, Group group, FlawKind flaws) {
  BenchGroupResult r;
  r.group = std::move(group);
  r.specimen = common_specimen(bench, r.group.name);
  r.group.size = size_of(r.specimen, flaws);
  fit(r);
  return r;
}

}  // namespace

double material_modulus(const BenchGroupResult& g) {
  return g.bounds && g.bounds->unbiased_modulus ? *g.bounds->unbiased_modulus : g.fit->modulus;
}

std::optional<double> effective_size_of(const BenchGroupResult& g, FlawKind flaws) {
  if (!g.fit || !g.specimen || g.specimen->test == BenchTest::compression) return std::nullopt;
  return effective_size(*g.specimen, g.fit->modulus, flaws);
}

std::vector<BenchGroupResult> analyse_bench(const BenchFile& bench, FlawKind flaws) {
  std::vector<BenchGroupResult> results;
  for (const std::string& name : bench_group_names(bench))
    results.push_back(analyse_group(bench, bench_group(bench, name), flaws));
  return results;
}

std::vector<BenchGroupResult> analyse_flaw(const BenchFile& bench, const std::string& flaw, FlawKind flaws) {
  std::set<std::string> named;
  for (const BenchRow& row : bench.rows)
    if (!row.flaw.empty()) named.insert(row.flaw);
  if (named.empty()) throw UserError("No specimen of this table names a flaw: add the column 'flaw'.");
  if (!named.count(flaw)) throw UserError(unknown_word("flaw", flaw, "", {named.begin(), named.end()}));
  BenchFile one = bench;
  for (BenchRow& row : one.rows)
    if (row.end == BenchEnd::broken && row.flaw != flaw) row.end = BenchEnd::broken_otherwise;
  return analyse_bench(one, flaws);
}

BenchFindings bench_findings(BenchFile bench, std::vector<BenchGroupResult> groups) {
  BenchFindings all{std::move(bench), std::move(groups), {}, {}};
  std::vector<ClassifiedSpecimen> specimens;
  for (const BenchRow& row : all.bench.rows)
    specimens.push_back({row.strength_MPa, row.end == BenchEnd::suspended ? "" : row.flaw});
  all.flaws = fit_competing(specimens);
  std::vector<Group> compared;
  for (const BenchGroupResult& g : all.groups) compared.push_back(g.group);
  if (compared.size() > 1) all.comparison = compare_groups(compared);
  return all;
}

}  // namespace crownproof
