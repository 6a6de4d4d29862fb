// SPDX-License-Identifier: AGPL-3.0-or-later
// Plain data turned into the two kinds of VTK actor that pictures need.
#pragma once

#include <vtkActor.h>
#include <vtkSmartPointer.h>

#include "io/drawing/scene.hpp"

namespace crownproof {

vtkSmartPointer<vtkActor> surface_actor(const SceneSurface& surface, const SceneScale& scale);

/// Lines moved a little towards the eye, so that the surface they lie on does not hide them.
vtkSmartPointer<vtkActor> lines_actor(const SceneLines& lines, const Vec3& towards_eye, double px_per_pt);

}  // namespace crownproof
