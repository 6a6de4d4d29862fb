// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/effective_volume.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include <Eigen/Geometry>

#include "mesh/parallel.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/element/barycentric.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/strength/specimen_size.hpp"
#include "solver/stress/principal.hpp"
#include "solver/stress/stress_field.hpp"

namespace crownproof {
namespace {

/// One value a modulus.
using Powers = Eigen::Array<double, most_moduli, 1>;

/// The integrand at a point of a cell or face: sum of (s / peak)^m times d(volume) / d(barycentric measure).
using Integrand = std::function<Powers(int item, const Barycentric&)>;

/// A tetrahedron (4 corners) or triangle (3) within a cell or face, in its barycentric coordinates.
template <int N>
using Piece = std::array<Barycentric, N>;

Barycentric middle(const Barycentric& a, const Barycentric& b) {
  Barycentric m;
  for (int i = 0; i < 4; ++i) m[i] = 0.5 * (a[i] + b[i]);
  return m;
}

std::array<Piece<3>, 4> halved(const Piece<3>& p) {
  const Barycentric a = middle(p[0], p[1]), b = middle(p[1], p[2]), c = middle(p[2], p[0]);
  return {{{p[0], a, c}, {a, p[1], b}, {c, b, p[2]}, {a, b, c}}};
}

/// Four corner tetrahedra and the inner octahedron cut along one diagonal (Bey 1995).
std::array<Piece<4>, 8> halved(const Piece<4>& p) {
  const Barycentric a = middle(p[0], p[1]), b = middle(p[0], p[2]), c = middle(p[0], p[3]),
                    d = middle(p[1], p[2]), e = middle(p[1], p[3]), f = middle(p[2], p[3]);
  return {{{p[0], a, b, c},
           {a, p[1], d, e},
           {b, d, p[2], f},
           {c, e, f, p[3]},
           {a, b, c, e},
           {a, b, d, e},
           {b, c, e, f},
           {b, d, e, f}}};
}

template <int N>
Piece<N> whole() {
  Piece<N> piece{};
  for (int i = 0; i < N; ++i) piece[i][i] = 1;
  return piece;
}

template <int N>
Powers by_rule(const Integrand& integrand, int item, const Piece<N>& piece, double share) {
  const auto& rule = N == 4 ? tetrahedron_rule(5) : triangle_rule(6);
  Powers sum = Powers::Zero();
  for (const QuadraturePoint& q : rule) {
    Barycentric at{};
    for (int i = 0; i < N; ++i)
      for (int k = 0; k < 4; ++k) at[k] += q.at[i] * piece[i][k];
    sum += q.weight * share * integrand(item, at);
  }
  return sum;
}

/// A part of a cell or face on its way to being integrated well enough.
template <int N>
struct Portion {
  Piece<N> piece;
  double share = 1;  ///< of the item's measure
  Powers once;       ///< its integral by the rule alone
};

/// Halves the portion until the integral of the highest modulus settles or is too small to matter.
template <int N>
Powers settled(const Integrand& integrand, int item, const Portion<N>& portion, const Powers& negligible,
               int depth) {
  const auto parts = halved(portion.piece);
  const double share = portion.share;
  std::array<Powers, parts.size()> values;
  Powers sum = Powers::Zero();
  for (std::size_t i = 0; i < parts.size(); ++i) {
    values[i] = by_rule<N>(integrand, item, parts[i], share / parts.size());
    sum += values[i];
  }
  if (depth == 0 || ((sum - portion.once).abs() <= (1e-3 * sum).max(negligible)).all()) return sum;
  Powers finer = Powers::Zero();
  for (std::size_t i = 0; i < parts.size(); ++i)
    finer += settled<N>(integrand, item, {parts[i], share / parts.size(), values[i]}, negligible, depth - 1);
  return finer;
}

/// Items (cells or faces) from the highest tension down, with the most that each may add.
struct Ranked {
  std::vector<int> items;
  std::vector<Powers> most;
};

/// Integrals by the rule alone, one row of powers each, of so many of the first items that the rest together
/// cannot add a part of 1e-5. Every item is summed by itself and in order, so threads change nothing.
template <int N>
std::vector<Powers> first_integrals(const Integrand& integrand, const Ranked& ranked) {
  constexpr double left_out = 1e-5;
  constexpr std::size_t at_once = 2048;
  Powers rest = Powers::Zero(), total = Powers::Zero();
  for (const Powers& most : ranked.most) rest += most;
  std::vector<Powers> values;
  while (values.size() < ranked.items.size() && !(rest <= left_out * total).all()) {
    const std::size_t begin = values.size(), end = std::min(begin + at_once, ranked.items.size());
    values.resize(end);
    parallel_for_chunks(end - begin, 64, [&](std::size_t i) {
      values[begin + i] = by_rule<N>(integrand, ranked.items[begin + i], whole<N>(), 1);
    });
    for (std::size_t i = begin; i < end; ++i) {
      total += values[i];
      rest -= ranked.most[i];
    }
  }
  return values;
}

/// The same, halved where the rule alone does not settle.
template <int N>
std::vector<Powers> integrate(const Integrand& integrand, const Ranked& ranked) {
  // An eighth of a cell follows the rim of a contact within 3 % of its risk.
  constexpr int deepest = N == 4 ? 3 : 5;
  std::vector<Powers> values = first_integrals<N>(integrand, ranked);
  const int n = static_cast<int>(values.size());
  Powers total = Powers::Zero();
  for (const Powers& v : values) total += v;
  // What all items leave open together is to be this part of the whole at most; of few items much less.
  constexpr double open_part = 5e-3, most_of_one = 1e-5, no_part = 1e-7;
  const auto matters = [&](const Powers& v) { return (v > no_part * total).any(); };
  const auto n_matter = std::max<std::ptrdiff_t>(1, std::count_if(values.begin(), values.end(), matters));
  const Powers negligible = std::min(open_part / static_cast<double>(n_matter), most_of_one) * total;
  parallel_for_chunks(n, 16, [&](int i) {
    if ((values[i] > negligible).any())
      values[i] = settled<N>(integrand, ranked.items[i], {whole<N>(), 1, values[i]}, negligible, deepest);
  });
  return values;
}

double highest(const Tensions& t) {
  return std::max({t[0], t[1], t[2], 0.0});
}

Powers powers_of(const Tensions& tensions, double peak, const Powers& moduli) {
  Powers sum = Powers::Zero();
  for (const double s : tensions)
    if (s > 0) sum += (moduli * std::log(s / peak)).exp();
  return sum;
}

/// Area element and unit normal of a curved face.
struct FacePoint {
  double area = 0;  ///< d(area) / d(barycentric measure): the area of a straight face
  Vec3 normal = Vec3::UnitZ();
};
FacePoint face_point(const TetMesh& mesh, int face, const Barycentric& at) {
  const auto slopes = face_shape_derivatives(at);
  Vec3 by_xi = Vec3::Zero(), by_eta = Vec3::Zero();
  for (int a = 0; a < 6; ++a) {
    by_xi += slopes(a, 0) * mesh.nodes[mesh.faces[face].nodes[a]];
    by_eta += slopes(a, 1) * mesh.nodes[mesh.faces[face].nodes[a]];
  }
  const Vec3 cross = by_xi.cross(by_eta);
  return {0.5 * cross.norm(), cross.normalized()};
}

/// The highest tension of each item at its nodes.
template <int N>
std::vector<double> item_peaks(const std::vector<int>& items,
                               const std::function<Tensions(int, const Barycentric&)>& tensions) {
  std::vector<Barycentric> places;
  const Piece<N> corners = whole<N>();
  for (int i = 0; i < N; ++i) {
    places.push_back(corners[i]);
    for (int j = 0; j < i; ++j) places.push_back(middle(corners[i], corners[j]));
  }
  std::vector<double> peaks(items.size(), 0.0);
  parallel_for_chunks(items.size(), 64, [&](std::size_t i) {
    for (const Barycentric& at : places) peaks[i] = std::max(peaks[i], highest(tensions(items[i], at)));
  });
  return peaks;
}

/// Ranks the items; those without tension are left out. Three tensions may add, and between nodes there may
/// be more than at them.
template <int N>
Ranked ranked_items(const std::vector<int>& items, const std::vector<double>& peaks,
                    const std::function<double(int, const Barycentric&)>& measure, const Powers& moduli) {
  constexpr double room = 1.3, tensions = 3;
  Barycentric centre{};
  for (int i = 0; i < N; ++i) centre[i] = 1.0 / N;
  const double peak = *std::max_element(peaks.begin(), peaks.end());
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < items.size(); ++i)
    if (peaks[i] > 0) order.push_back(i);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return peaks[a] > peaks[b]; });
  Ranked ranked{std::vector<int>(order.size()), std::vector<Powers>(order.size())};
  parallel_for(order.size(), [&](std::size_t i) {
    ranked.items[i] = items[order[i]];
    ranked.most[i] = tensions * std::abs(measure(ranked.items[i], centre)) *
                     (moduli * std::log(room * peaks[order[i]] / peak)).exp();
  });
  return ranked;
}

template <int N>
EffectiveSize over_items(std::vector<int> items,
                         const std::function<Tensions(int, const Barycentric&)>& tensions,
                         const std::function<double(int, const Barycentric&)>& measure,
                         const EffectiveSizeRequest& request) {
  const int n_moduli = static_cast<int>(request.moduli.size());
  EffectiveSize result;
  result.size.assign(n_moduli, 0.0);
  result.by_label.assign(n_moduli, std::vector<double>(request.n_labels, 0.0));
  const std::vector<double> peaks = item_peaks<N>(items, tensions);
  for (const double p : peaks) result.peak_MPa = std::max(result.peak_MPa, p);
  if (result.peak_MPa <= 0) return result;

  Powers moduli = Powers::Constant(request.moduli.front());
  for (int k = 0; k < n_moduli; ++k) moduli[k] = request.moduli[k];
  const Ranked ranked = ranked_items<N>(items, peaks, measure, moduli);
  const std::vector<Powers> parts = integrate<N>(
      [&](int item, const Barycentric& at) -> Powers {
        return measure(item, at) * powers_of(tensions(item, at), result.peak_MPa, moduli);
      },
      ranked);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const int label = request.labels.empty() ? 0 : request.labels[ranked.items[i]];
    for (int k = 0; k < n_moduli; ++k) {
      result.size[k] += parts[i][k];
      result.by_label[k][label] += parts[i][k];
    }
  }
  return result;
}

}  // namespace

namespace {

EffectiveSize size_of_mesh(const TetMesh& mesh, const StressField& field, const StressMeasure& measure,
                           const EffectiveSizeRequest& request) {
  assert(!request.moduli.empty() && request.moduli.size() <= most_moduli);
  if (request.flaws == FlawKind::surface)
    return over_items<3>(
        faces_of_region(mesh, request.region),
        [&](int face, const Barycentric& at) {
          return measure(within_surface(field.on_face(face, at), face_point(mesh, face, at).normal));
        },
        [&](int face, const Barycentric& at) { return face_point(mesh, face, at).area; }, request);
  std::vector<int> cells;
  for (int cell = 0; cell < mesh.n_cells(); ++cell)
    if (mesh.region[cell] == request.region) cells.push_back(cell);
  return over_items<4>(
      std::move(cells), [&](int cell, const Barycentric& at) { return measure(field.in_cell(cell, at)); },
      [&](int cell, const Barycentric& at) {
        return map_cell(cell_positions(mesh, cell), at).det_jacobian / 6;
      },
      request);
}

}  // namespace

EffectiveSize effective_size(const TetMesh& mesh, const StressField& field, const StressMeasure& measure,
                             const EffectiveSizeRequest& request) {
  EffectiveSize whole = size_of_mesh(mesh, field, measure, request);
  for (double& size : whole.size) size *= request.copies;
  for (auto& parts : whole.by_label)
    for (double& part : parts) part *= request.copies;
  return whole;
}

}  // namespace crownproof
