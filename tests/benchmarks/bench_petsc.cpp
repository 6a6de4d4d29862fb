// SPDX-License-Identifier: AGPL-3.0-or-later
// bench_petsc gamg|boomeramg|pmg PROBLEM_FILE RUNS: peers that come through PETSc, one rank a core.
#include <petscksp.h>

#include "tests/benchmarks/measure.hpp"
#include "tests/benchmarks/problem_file.hpp"

using namespace crownproof;

namespace {

/// Nodes first .. last-1 belong to this rank.
struct Share {
  int first, last;
};

Share share_of(int n) {
  int rank = 0, size = 1;
  MPI_Comm_rank(PETSC_COMM_WORLD, &rank);
  MPI_Comm_size(PETSC_COMM_WORLD, &size);
  return {static_cast<int>(long{n} * rank / size), static_cast<int>(long{n} * (rank + 1) / size)};
}

Mat stiffness_matrix(const AssembledProblem& p, Share mine) {
  Mat a = nullptr;
  const int rows = 3 * (mine.last - mine.first);
  std::vector<PetscInt> own(rows), other(rows);
  for (int n = mine.first; n < mine.last; ++n) {
    int inside = 0;
    for (int at = p.first[n]; at < p.first[n + 1]; ++at)
      inside += p.column[at] >= mine.first && p.column[at] < mine.last ? 3 : 0;
    for (int i = 0; i < 3; ++i) {
      own[3 * (n - mine.first) + i] = inside;
      other[3 * (n - mine.first) + i] = 3 * (p.first[n + 1] - p.first[n]) - inside;
    }
  }
  MatCreateAIJ(PETSC_COMM_WORLD, rows, rows, PETSC_DETERMINE, PETSC_DETERMINE, 0, own.data(), 0, other.data(),
               &a);
  MatSetBlockSize(a, 3);
  for (int n = mine.first; n < mine.last; ++n) {
    for (int at = p.first[n]; at < p.first[n + 1]; ++at)
      MatSetValuesBlocked(a, 1, &n, 1, &p.column[at], &p.block[std::size_t{9} * at], INSERT_VALUES);
  }
  MatAssemblyBegin(a, MAT_FINAL_ASSEMBLY);
  MatAssemblyEnd(a, MAT_FINAL_ASSEMBLY);
  MatSetOption(a, MAT_SPD, PETSC_TRUE);
  return a;
}

Vec vector_of(const std::vector<double>& values, Share mine) {
  Vec v = nullptr;
  VecCreateMPI(PETSC_COMM_WORLD, 3 * (mine.last - mine.first), PETSC_DETERMINE, &v);
  VecSetBlockSize(v, 3);
  double* own = nullptr;
  VecGetArray(v, &own);
  std::copy(values.begin() + 3L * mine.first, values.begin() + 3L * mine.last, own);
  VecRestoreArray(v, &own);
  return v;
}

void set_rigid_motions(Mat a, const std::vector<double>& position, Share mine) {
  Vec at = vector_of(position, mine);
  MatNullSpace motions = nullptr;
  MatNullSpaceCreateRigidBody(at, &motions);
  MatSetNearNullSpace(a, motions);
  MatNullSpaceDestroy(&motions);
  VecDestroy(&at);
}

/// Corners of the free nodes: their numbers, shares and positions.
struct Corners {
  std::vector<int> number;  ///< #nodes; -1: a mid-side node
  std::vector<double> position;
  Share mine{};
};

Corners corners_of(const AssembledProblem& p, Share mine) {
  Corners c;
  int n = 0;
  for (int i = 0; i < p.n_nodes(); ++i) {
    if (i == mine.first) c.mine.first = n;
    const bool corner = p.corners[i][0] == i && p.corners[i][1] == i;
    c.number.push_back(corner ? n++ : -1);
    for (int k = 0; corner && k < 3; ++k) c.position.push_back(p.position[std::size_t{3} * i + k]);
    if (i == mine.last - 1) c.mine.last = n;
  }
  return c;
}

/// A mid-side node takes the mean of its corners.
Mat interpolation(const AssembledProblem& p, Share mine, const Corners& corners) {
  Mat m = nullptr;
  MatCreateAIJ(PETSC_COMM_WORLD, 3 * (mine.last - mine.first), 3 * (corners.mine.last - corners.mine.first),
               PETSC_DETERMINE, PETSC_DETERMINE, 2, nullptr, 2, nullptr, &m);
  MatSetBlockSizes(m, 3, 3);
  for (int n = mine.first; n < mine.last; ++n) {
    for (const int end : p.corners[n]) {
      if (end < 0) continue;
      const int from = corners.number[end];
      for (int i = 0; i < 3; ++i) MatSetValue(m, 3 * n + i, 3 * from + i, 0.5, ADD_VALUES);
    }
  }
  MatAssemblyBegin(m, MAT_FINAL_ASSEMBLY);
  MatAssemblyEnd(m, MAT_FINAL_ASSEMBLY);
  return m;
}

/// Two levels, the lower one by one cycle of GAMG.
void set_two_levels(PC pc, Mat a, const AssembledProblem& p, Share mine) {
  const Corners corners = corners_of(p, mine);
  Mat up = interpolation(p, mine, corners), coarse = nullptr;
  MatPtAP(a, up, MAT_INITIAL_MATRIX, 2.0, &coarse);
  MatSetBlockSize(coarse, 3);
  MatSetOption(coarse, MAT_SPD, PETSC_TRUE);
  set_rigid_motions(coarse, corners.position, corners.mine);
  PCSetType(pc, PCMG);
  PCMGSetLevels(pc, 2, nullptr);
  PCMGSetGalerkin(pc, PC_MG_GALERKIN_NONE);
  PCMGSetInterpolation(pc, 1, up);
  KSP below = nullptr, smoother = nullptr;
  PCMGGetCoarseSolve(pc, &below);
  KSPSetOperators(below, coarse, coarse);
  KSPSetType(below, KSPPREONLY);
  PC below_pc = nullptr;
  KSPGetPC(below, &below_pc);
  PCSetType(below_pc, PCGAMG);
  PCMGGetSmoother(pc, 1, &smoother);
  KSPSetOperators(smoother, a, a);
  MatDestroy(&up);
  MatDestroy(&coarse);
}

/// What the manual of hypre advises for three-dimensional problems (HMIS coarsening, extended+i interpolation
/// cut to four weights a row) with the strength threshold it gives for elasticity: less memory and time than
/// the settings that PETSc starts from.
void advise_boomeramg() {
  for (const auto& [option, value] : {std::pair{"-pc_hypre_boomeramg_coarsen_type", "HMIS"},
                                      {"-pc_hypre_boomeramg_interp_type", "ext+i"},
                                      {"-pc_hypre_boomeramg_P_max", "4"},
                                      {"-pc_hypre_boomeramg_strong_threshold", "0.5"}}) {
    PetscOptionsSetValue(nullptr, option, value);
  }
}

struct Outcome {
  double setup = 0, solve = 0, cpu = 0;  // cpu: of this rank
  int iterations = 0;
  double residual = 0;
};

Outcome run_once(const std::string& which, const AssembledProblem& p, Mat a, Vec load, Share mine) {
  Outcome out;
  KSP ksp = nullptr;
  PC pc = nullptr;
  Vec u = nullptr;
  VecDuplicate(load, &u);
  MPI_Barrier(PETSC_COMM_WORLD);
  const double begin = seconds(), cpu_begin = cpu_seconds();
  KSPCreate(PETSC_COMM_WORLD, &ksp);
  KSPSetType(ksp, KSPCG);
  KSPSetNormType(ksp, KSP_NORM_UNPRECONDITIONED);
  KSPSetTolerances(ksp, 1e-8, PETSC_DEFAULT, PETSC_DEFAULT, 2000);
  KSPSetOperators(ksp, a, a);
  KSPGetPC(ksp, &pc);
  if (which == "pmg") {
    set_two_levels(pc, a, p, mine);
  } else if (which == "gamg") {
    PCSetType(pc, PCGAMG);
  } else {
    PCSetType(pc, PCHYPRE);
    PCHYPRESetType(pc, "boomeramg");
    advise_boomeramg();
  }
  KSPSetFromOptions(ksp);
  KSPSetUp(ksp);
  const double ready = seconds();
  KSPSolve(ksp, load, u);
  out.solve = seconds() - ready;
  out.setup = ready - begin;
  out.cpu = cpu_seconds() - cpu_begin;
  PetscInt iterations = 0;
  KSPGetIterationNumber(ksp, &iterations);
  out.iterations = static_cast<int>(iterations);
  Vec r = nullptr;
  VecDuplicate(load, &r);
  MatMult(a, u, r);
  VecAYPX(r, -1, load);
  PetscReal norm = 0, reference = 1;
  VecNorm(r, NORM_2, &norm);
  VecNorm(load, NORM_2, &reference);
  out.residual = norm / reference;
  VecDestroy(&r);
  VecDestroy(&u);
  KSPDestroy(&ksp);
  return out;
}

void measure(const std::string& which, const std::string& file, int runs) {
  AssembledProblem p = read_problem(file);
  const long unknowns = 3L * p.n_nodes();
  const Share mine = share_of(p.n_nodes());
  Mat a = stiffness_matrix(p, mine);
  Vec load = vector_of(p.load, mine);
  p.block = {};
  p.column = {};
  if (which == "gamg") set_rigid_motions(a, p.position, mine);
  reset_peak_memory();
  std::vector<double> setup, solve, cpu;
  Outcome out;
  for (int run = 0; run < runs; ++run) {
    out = run_once(which, p, a, load, mine);
    setup.push_back(out.setup);
    solve.push_back(out.solve);
    cpu.push_back(out.cpu);
  }
  const std::array<double, 2> own{peak_memory_GiB(), median(cpu)};
  std::array<double, 2> all{};
  MPI_Reduce(own.data(), all.data(), 2, MPI_DOUBLE, MPI_SUM, 0, PETSC_COMM_WORLD);
  int rank = 0;
  MPI_Comm_rank(PETSC_COMM_WORLD, &rank);
  const std::string name = which == "gamg"        ? "PETSc CG + GAMG, rigid-body modes"
                           : which == "boomeramg" ? "PETSc CG + hypre BoomerAMG"
                                                  : "PETSc multigrid quadratic-linear + GAMG";
  if (rank == 0)
    print_row(name, unknowns, median(setup), median(solve), all[1], out.iterations, out.residual, all[0],
              runs);
  MatDestroy(&a);
  VecDestroy(&load);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 4) return 2;
  PetscInitialize(&argc, &argv, nullptr, nullptr);
  measure(argv[1], argv[2], std::stoi(argv[3]));
  PetscFinalize();
}
