// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/exit_code.hpp"

#include <fmt/format.h>

#include <new>

#include "io/interrupt.hpp"
#include "io/machine/output_file.hpp"
#include "io/terminal.hpp"
#include "io/text/user_error.hpp"
#include "mesh/geometry_error.hpp"
#include "mesh/model_error.hpp"
#include "solver/accuracy/memory_need.hpp"
#include "solver/simulate.hpp"
#include "solver/solve_mesh.hpp"

namespace crownproof {
namespace {

int report(const char* message, int code) {
  tell(fmt::format("crownproof: {}\n", message));
  return code;
}

}  // namespace

int guarded(const std::function<int()>& command) {
  try {
    return command();
  } catch (const UserError& error) {
    return report(error.what(), exit_code::usage);
  } catch (const ModelError& error) {
    return report(error.what(), exit_code::usage);
  } catch (const ResultsError& error) {
    return report(error.what(), exit_code::usage);
  } catch (const GeometryError& error) {
    return report(error.what(), exit_code::geometry);
  } catch (const NoConvergence& error) {
    return report(error.what(), exit_code::no_convergence);
  } catch (const Interrupted&) {
    return report("interrupted; nothing was written.", exit_code::interrupted);
  } catch (const TooLittleMemory& error) {
    return report(error.what(), exit_code::internal);
  } catch (const std::bad_alloc&) {
    return report(
        "Memory ran out. Ask for fewer cells under 'accuracy', free some memory, or raise the limit of the "
        "process (ulimit) or its control group.",
        exit_code::internal);
  } catch (const std::exception& error) {
    return report(
        fmt::format("internal error: {}. Please report it with the case file.", error.what()).c_str(),
        exit_code::internal);
  }
}

}  // namespace crownproof
