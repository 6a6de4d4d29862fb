// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/draw_view.hpp"

#include <vtkCamera.h>
#include <vtkGenericOpenGLRenderWindow.h>
#include <vtkLight.h>
#include <vtkNew.h>
#include <vtkRenderer.h>

#include "io/drawing/vtk_pieces.hpp"

namespace crownproof {
namespace {

/// Lines of equal value at every eighth of the scale, and bold ones at limits.
std::vector<SceneLines> lines_on(const SceneSurface& surface, const SceneScale& scale) {
  std::vector<SceneLines> lines;
  for (int i = 1; i < scale_parts; ++i)
    lines.push_back({.segments = value_lines(surface.surface, scale.highest * i / scale_parts),
                     .grey = 0.25,
                     .width_pt = 0.3,
                     .lift_mm = 0.02});
  for (const ScaleMark& mark : scale.marks) {
    if (!mark.drawn_on_body) continue;
    const auto limit = value_lines(surface.surface, mark.value);
    lines.push_back({.segments = limit, .grey = 1, .width_pt = 2.2, .lift_mm = 0.03});
    lines.push_back({.segments = limit, .grey = 0, .width_pt = 1.1, .lift_mm = 0.05});
  }
  return lines;
}

/// From the upper left of the eye, as on maps: light from the eye itself leaves no shadow on grooves.
void add_lamp(vtkRenderer& renderer) {
  vtkNew<vtkLight> lamp;
  lamp->SetLightTypeToCameraLight();
  lamp->SetPosition(-0.6, 0.7, 1.3);
  lamp->SetFocalPoint(0, 0, 0);
  renderer.AddLight(lamp);
}

void aim(vtkRenderer& renderer, const SceneView& view, const ViewPort& port) {
  const Vec3 eye = view.towards_eye.normalized();
  vtkCamera& camera = *renderer.GetActiveCamera();
  camera.ParallelProjectionOn();
  camera.SetFocalPoint(port.target().data());
  camera.SetPosition(Vec3(port.target() + port.depth_mm() * eye).data());
  camera.SetViewUp(view.up.data());
  camera.SetParallelScale(0.5 * port.place().height() * port.mm_per_pt());
  renderer.ResetCameraClippingRange();
}

}  // namespace

Image draw_view(const OffscreenWindow& canvas, const SceneView& view, const ViewPort& port,
                const SceneScale& scale) {
  vtkGenericOpenGLRenderWindow& window = canvas.window();
  const double px_per_pt = window.GetSize()[0] / port.place().width();
  const Vec3 eye = view.towards_eye.normalized();
  vtkNew<vtkRenderer> renderer;
  renderer->SetBackground(1, 1, 1);
  add_lamp(*renderer);
  const auto add_lines = [&](const SceneLines& lines) {
    if (!lines.segments.empty()) renderer->AddActor(lines_actor(lines, eye, px_per_pt));
  };
  for (const SceneSurface& s : view.surfaces) {
    if (s.surface.triangles.empty()) continue;
    renderer->AddActor(surface_actor(s, scale));
    if (!s.coloured) continue;
    for (const SceneLines& lines : lines_on(s, scale)) add_lines(lines);
  }
  for (const SceneLines& lines : view.lines) add_lines(lines);
  aim(*renderer, view, port);
  window.AddRenderer(renderer);
  Image image = canvas.pixels();
  window.RemoveRenderer(renderer);
  return image;
}

}  // namespace crownproof
