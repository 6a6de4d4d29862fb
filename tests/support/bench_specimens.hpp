// SPDX-License-Identifier: AGPL-3.0-or-later
// Bench specimens of tests, mm.
#pragma once

#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"

namespace crownproof {

/// Three-point bending, or four-point bending if there is an inner span.
inline BenchSpecimen bar(double width, double thickness, double span, double inner = 0) {
  BenchSpecimen s;
  s.test = inner > 0 ? BenchTest::bend_4_point : BenchTest::bend_3_point;
  s.width_mm = width;
  s.thickness_mm = thickness;
  s.span_mm = span;
  s.inner_span_mm = inner;
  return s;
}

/// The usual bar, 4 mm wide and 3 mm thick (ISO 14704, from memory).
inline BenchSpecimen bar(double span, double inner = 0) {
  return bar(4, 3, span, inner);
}

inline BenchSpecimen disc(BenchTest test, double thickness, double loading, double support, double diameter,
                          double poisson) {
  BenchSpecimen s;
  s.test = test;
  s.thickness_mm = thickness;
  s.loading_diameter_mm = loading;
  s.support_diameter_mm = support;
  s.diameter_mm = diameter;
  s.poisson = poisson;
  return s;
}

}  // namespace crownproof
