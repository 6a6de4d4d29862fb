// SPDX-License-Identifier: AGPL-3.0-or-later
// Whether main memory can hold the meshes that a model asks for, and what is said if it cannot.
#pragma once

#include <stdexcept>

namespace crownproof {

struct Model;

/// Memory does not suffice; the text is a sentence for the user: what is needed, what is there, how many
/// cells would fit. Exit code 1.
struct TooLittleMemory : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Fields held at once: each bite and up to three influence fields for it.
int fields_of(const Model& model);

/// About how many cells the first mesh that counts will have: the asked ones, or what the sizes of the model
/// give; 0 for a bench specimen, whose meshes are small.
double asked_cells(const Model& model);

/// The largest mesh that `memory_GiB` holds, by predicted_memory_GiB; 0 if none does.
int cells_that_fit(double memory_GiB, int fields);

/// Throws TooLittleMemory if a mesh of so many cells needs more than the model's available memory (0: not
/// known).
void refuse_too_large(const Model& model, double cells);

/// What to throw when memory ran out, whatever was foreseen, on a mesh of so many cells (0: not known).
TooLittleMemory memory_ran_out(const Model& model, double cells);

}  // namespace crownproof
