// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/benchmarks/problem_file.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <numeric>
#include <stdexcept>

#include "tests/support/block_matrix.hpp"

namespace crownproof {
namespace {

/// Place on the Z-order curve of a box cut into 2^16 parts a side (Morton 1966).
std::uint64_t z_order(const Vec3& p, const Vec3& low, double size) {
  std::uint64_t code = 0;
  for (int axis = 0; axis < 3; ++axis) {
    const auto at = static_cast<std::uint64_t>(65535 * (p[axis] - low[axis]) / size);
    for (int bit = 0; bit < 16; ++bit) code |= ((at >> bit) & 1) << (3 * bit + axis);
  }
  return code;
}

/// Nodes that are not held, along the curve.
std::vector<int> free_nodes(const DemoProblem& problem) {
  std::vector<int> nodes;
  Vec3 low = Vec3::Constant(1e300), high = Vec3::Constant(-1e300);
  for (int n = 0; n < problem.mesh.n_nodes(); ++n) {
    const int held = problem.held[3 * n] + problem.held[3 * n + 1] + problem.held[3 * n + 2];
    if (held != 0 && held != 3) throw std::runtime_error("A node is held in part: no such case here.");
    if (held == 0) nodes.push_back(n);
    low = low.cwiseMin(problem.mesh.nodes[n]);
    high = high.cwiseMax(problem.mesh.nodes[n]);
  }
  std::vector<std::uint64_t> code(problem.mesh.nodes.size());
  for (const int n : nodes) code[n] = z_order(problem.mesh.nodes[n], low, (high - low).maxCoeff());
  std::stable_sort(nodes.begin(), nodes.end(), [&](int a, int b) { return code[a] < code[b]; });
  return nodes;
}

template <class T>
void put(std::ofstream& out, const std::vector<T>& values) {
  const std::size_t n = values.size();
  out.write(reinterpret_cast<const char*>(&n), sizeof n);
  out.write(reinterpret_cast<const char*>(values.data()), std::streamsize(n * sizeof(T)));
}

template <class T>
std::vector<T> take(std::ifstream& in) {
  std::size_t n = 0;
  in.read(reinterpret_cast<char*>(&n), sizeof n);
  std::vector<T> values(n);
  in.read(reinterpret_cast<char*>(values.data()), std::streamsize(n * sizeof(T)));
  if (!in) throw std::runtime_error("The problem file is cut short.");
  return values;
}

}  // namespace

AssembledProblem assemble(const DemoProblem& problem) {
  const BlockMatrix k = assemble_stiffness(problem.mesh, problem.stiffness, 3);  // as curved_cell_rule()
  const std::vector<int> nodes = free_nodes(problem);
  std::vector<int> at(problem.mesh.nodes.size(), -1);
  for (std::size_t i = 0; i < nodes.size(); ++i) at[nodes[i]] = static_cast<int>(i);
  AssembledProblem out;
  out.first.push_back(0);
  for (const int n : nodes) {
    for (int b = k.first[n]; b < k.first[n + 1]; ++b) {
      if (at[k.column[b]] < 0) continue;
      out.column.push_back(at[k.column[b]]);
      for (int i = 0; i < 9; ++i) out.block.push_back(k.block[b](i / 3, i % 3));
    }
    out.first.push_back(static_cast<int>(out.column.size()));
    for (int i = 0; i < 3; ++i) {
      out.load.push_back(problem.load[3 * n + i]);
      out.position.push_back(problem.mesh.nodes[n][i]);
    }
    out.corners.push_back({at[n], at[n]});
  }
  for (const auto& cell : problem.mesh.cells) {
    for (int e = 0; e < 6; ++e) {
      const int middle = at[cell[4 + e]];
      if (middle >= 0) out.corners[middle] = {at[cell[tet_edges[e][0]]], at[cell[tet_edges[e][1]]]};
    }
  }
  return out;
}

void write_problem(const AssembledProblem& problem, const std::filesystem::path& file) {
  std::ofstream out(file, std::ios::binary);
  put(out, problem.first);
  put(out, problem.column);
  put(out, problem.block);
  put(out, problem.load);
  put(out, problem.position);
  put(out, problem.corners);
  if (!out.flush()) throw std::runtime_error("Cannot write " + file.string());
}

AssembledProblem read_problem(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw std::runtime_error("Cannot read " + file.string());
  AssembledProblem p;
  p.first = take<int>(in);
  p.column = take<int>(in);
  p.block = take<double>(in);
  p.load = take<double>(in);
  p.position = take<double>(in);
  p.corners = take<std::array<int, 2>>(in);
  return p;
}

double relative_residual(const AssembledProblem& problem, const double* u) {
  double residual = 0, load = 0;
  for (int row = 0; row < problem.n_nodes(); ++row) {
    for (int i = 0; i < 3; ++i) {
      double r = problem.load[std::size_t{3} * row + i];
      load += r * r;
      for (int at = problem.first[row]; at < problem.first[row + 1]; ++at) {
        const double* const b = &problem.block[std::size_t{9} * at + 3 * i];
        const double* const x = u + std::size_t{3} * problem.column[at];
        r -= b[0] * x[0] + b[1] * x[1] + b[2] * x[2];
      }
      residual += r * r;
    }
  }
  return std::sqrt(residual / load);
}

}  // namespace crownproof
