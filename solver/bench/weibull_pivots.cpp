// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/weibull_pivots.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "mesh/model_error.hpp"
#include "solver/bench/random_numbers.hpp"
#include "solver/bench/weibull.hpp"

namespace crownproof {
namespace {

struct TableRow {
  int n;
  Pivots pivots;
};

// Made by simulate_pivots(n, 4000000 (n <= 25) or 800000, n): standard error of b below 3e-4 (n = 3:
// m^/m has no finite variance there; two seeds differ by 1e-3).
const std::vector<TableRow>& table() {
  static const std::vector<TableRow> rows{
      {3, {0.4409, 0.6509, 5.8017, -2.7350, 1.9608}},   {4, {0.6047, 0.6668, 3.6165, -1.6522, 1.3653}},
      {5, {0.6932, 0.6825, 2.8381, -1.2411, 1.0964}},   {6, {0.7494, 0.6964, 2.4363, -1.0227, 0.9357}},
      {7, {0.7880, 0.7088, 2.1910, -0.8849, 0.8288}},   {8, {0.8163, 0.7200, 2.0269, -0.7911, 0.7518}},
      {9, {0.8377, 0.7298, 1.9090, -0.7194, 0.6913}},   {10, {0.8549, 0.7380, 1.8189, -0.6643, 0.6423}},
      {11, {0.8689, 0.7457, 1.7479, -0.6198, 0.6041}},  {12, {0.8801, 0.7529, 1.6913, -0.5844, 0.5718}},
      {13, {0.8899, 0.7591, 1.6427, -0.5537, 0.5435}},  {14, {0.8979, 0.7653, 1.6031, -0.5268, 0.5184}},
      {15, {0.9050, 0.7706, 1.5683, -0.5037, 0.4974}},  {16, {0.9110, 0.7757, 1.5394, -0.4839, 0.4786}},
      {18, {0.9213, 0.7848, 1.4901, -0.4503, 0.4456}},  {20, {0.9294, 0.7926, 1.4513, -0.4226, 0.4185}},
      {22, {0.9360, 0.7997, 1.4197, -0.3992, 0.3967}},  {25, {0.9437, 0.8087, 1.3820, -0.3704, 0.3689}},
      {30, {0.9532, 0.8213, 1.3349, -0.3341, 0.3334}},  {35, {0.9603, 0.8312, 1.3003, -0.3067, 0.3068}},
      {40, {0.9650, 0.8403, 1.2752, -0.2846, 0.2850}},  {50, {0.9721, 0.8538, 1.2373, -0.2531, 0.2535}},
      {60, {0.9769, 0.8639, 1.2104, -0.2291, 0.2303}},  {80, {0.9827, 0.8795, 1.1757, -0.1976, 0.1979}},
      {100, {0.9862, 0.8902, 1.1537, -0.1760, 0.1768}}, {150, {0.9907, 0.9079, 1.1211, -0.1429, 0.1429}},
      {200, {0.9930, 0.9190, 1.1027, -0.1233, 0.1236}},
  };
  return rows;
}

// For large n the pivots are normal: sqrt(n)(m^/m - 1) has variance 0.6079 and sqrt(n) m ln(s0^/s0) 1.1087
// (Harter & Moore 1968), n(1 - b) tends to 1.3795. Multiplied so, the columns are smooth in 1/sqrt(n).
using Scaled = std::array<double, 5>;
Scaled scaled(const TableRow& row) {
  const double root = std::sqrt(row.n);
  const Pivots& p = row.pivots;
  return {row.n * (1 - p.unbiasing), root * (1 - p.modulus_05), root * (p.modulus_95 - 1),
          -root * p.location_05, root * p.location_95};
}
constexpr double z95 = 1.6448536269514722;
const Scaled limit{1.3795, z95* std::sqrt(0.60793), z95* std::sqrt(0.60793), z95* std::sqrt(1.10866),
                   z95* std::sqrt(1.10866)};

double quantile(std::vector<double>& values, double probability) {
  const auto place =
      values.begin() + static_cast<std::ptrdiff_t>(probability * static_cast<double>(values.size()));
  std::nth_element(values.begin(), place, values.end());
  return *place;
}

}  // namespace

Pivots simulate_pivots(int n_specimens, int n_samples, std::uint64_t seed) {
  RandomNumbers random(seed);
  std::vector<double> modulus, location;
  std::vector<Specimen> sample(n_specimens);
  double sum = 0;
  for (int i = 0; i < n_samples; ++i) {
    for (Specimen& s : sample) s.stress_MPa = random.weibull(1, 1);
    const WeibullFit fit = fit_weibull(sample);
    modulus.push_back(fit.modulus);
    location.push_back(fit.modulus * std::log(fit.characteristic_MPa));
    sum += fit.modulus;
  }
  return {n_samples / sum, quantile(modulus, 0.05), quantile(modulus, 0.95), quantile(location, 0.05),
          quantile(location, 0.95)};
}

Pivots pivots(int n_specimens) {
  if (n_specimens < table().front().n)
    throw ModelError(
        fmt::format("{} specimens are too few for bounds of a Weibull fit; at least {} are needed, and "
                    "30 are customary.",
                    n_specimens, table().front().n));
  const auto above =
      std::find_if(table().begin(), table().end(), [&](const TableRow& r) { return r.n >= n_specimens; });
  if (above != table().end() && above->n == n_specimens) return above->pivots;
  const TableRow& below = *(above - 1);
  const Scaled low = scaled(below), high = above == table().end() ? limit : scaled(*above);
  const double x0 = 1 / std::sqrt(below.n), x1 = above == table().end() ? 0 : 1 / std::sqrt(above->n);
  const double t = (1 / std::sqrt(n_specimens) - x0) / (x1 - x0), root = std::sqrt(n_specimens);
  const auto at = [&](int k) { return low[k] + t * (high[k] - low[k]); };
  return {1 - at(0) / n_specimens, 1 - at(1) / root, 1 + at(2) / root, -at(3) / root, at(4) / root};
}

}  // namespace crownproof
