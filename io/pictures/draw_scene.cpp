// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/pictures/draw_scene.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>
#include <vtkCamera.h>
#include <vtkGenericOpenGLRenderWindow.h>
#include <vtkNew.h>
#include <vtkRenderer.h>
#include <vtkRendererCollection.h>

#include "io/pictures/vtk_pieces.hpp"
#include "mesh/box.hpp"

namespace crownproof {
namespace {

// Layout in pixels: a strip for the titles, one for the notes, one at the right for the bar.
constexpr double top_strip = 105, bottom_strip = 85, right_strip = 250;
constexpr double caption_line = 24;

/// Views in rows, each under its caption.
struct Frame {
  double width, height, caption_height;
  ViewGrid grid;

  Frame(double w, double h, const std::vector<SceneView>& views)
      : width(w), height(h), caption_height(0), grid(grid_of(views.size())) {
    for (const SceneView& view : views)
      if (!view.caption.empty())
        caption_height = std::max(
            caption_height, caption_line * static_cast<double>(1 + std::count(view.caption.begin(),
                                                                              view.caption.end(), '\n')));
  }
  double inner_height() const { return height - top_strip - bottom_strip; }
  double row_height() const { return inner_height() / static_cast<double>(grid.rows); }
  double view_width() const { return (width - right_strip) / static_cast<double>(grid.columns); }
  double view_height() const { return row_height() - caption_height; }
  double left(std::size_t view) const { return view_width() * static_cast<double>(view % grid.columns); }
  double bottom(std::size_t view) const {
    const std::size_t row = view / grid.columns;
    return height - top_strip - row_height() * static_cast<double>(row + 1);
  }
};

Mat3 axes_of(const SceneView& view) {
  const Vec3 eye = view.towards_eye.normalized();
  const Vec3 up = (view.up - view.up.dot(eye) * eye).normalized();
  const Vec3 right(up.y() * eye.z() - up.z() * eye.y(), up.z() * eye.x() - up.x() * eye.z(),
                   up.x() * eye.y() - up.y() * eye.x());
  Mat3 axes;
  axes << right.transpose(), up.transpose(), eye.transpose();
  return axes;
}

/// The box of a view in its own axes: right, up, towards the eye.
Box extent_of(const SceneView& view) {
  const Mat3 axes = axes_of(view);
  Box extent;
  for (const SceneSurface& s : view.surfaces)
    for (const Vec3& p : s.surface.points) extent.extend(Vec3(axes * p));
  return extent;
}

/// Millimetres for each pixel, the same for all views, so that each fits with a margin.
double mm_per_pixel(const Scene& scene, const Frame& frame) {
  constexpr double filled = 0.84;
  double scale = 1e-6;
  for (const SceneView& view : scene.views) {
    const Vec3 size = extent_of(view).sizes();
    scale = std::max(
        {scale, size.x() / (filled * frame.view_width()), size.y() / (filled * frame.view_height())});
  }
  return scale;
}

/// Draws one view and returns where a point in space lies in the window.
class ViewPort {
 public:
  ViewPort(const SceneView& view, const Frame& frame, std::size_t index, double scale)
      : axes_(axes_of(view)),
        scale_(scale),
        middle_{frame.left(index) + frame.view_width() / 2, frame.bottom(index) + frame.view_height() / 2},
        extent_(extent_of(view)) {}

  Pixel at(const Vec3& point) const {
    const Vec3 q = axes_ * point - extent_.center();
    return {middle_.x + q.x() / scale_, middle_.y + q.y() / scale_};
  }
  Pixel middle() const { return middle_; }
  Vec3 target() const { return axes_.transpose() * extent_.center(); }
  double depth() const { return extent_.sizes().norm() + 1; }

 private:
  Mat3 axes_;
  double scale_;
  Pixel middle_;
  Box extent_;
};

vtkSmartPointer<vtkRenderer> view_renderer(const SceneView& view, const ViewPort& port, const Frame& frame,
                                           std::size_t index, double scale, double highest) {
  vtkNew<vtkRenderer> renderer;
  const double left = frame.left(index), low = frame.bottom(index);
  renderer->SetViewport(left / frame.width, low / frame.height, (left + frame.view_width()) / frame.width,
                        (low + frame.view_height()) / frame.height);
  renderer->SetBackground(1, 1, 1);
  for (const SceneSurface& s : view.surfaces)
    if (!s.surface.triangles.empty()) renderer->AddActor(surface_actor(s, highest));
  const Vec3 eye = view.towards_eye.normalized();
  for (const SceneLines& l : view.lines)
    if (!l.segments.empty()) renderer->AddActor(lines_actor(l, eye));
  vtkCamera& camera = *renderer->GetActiveCamera();
  camera.ParallelProjectionOn();
  camera.SetFocalPoint(port.target().data());
  camera.SetPosition(Vec3(port.target() + port.depth() * eye).data());
  camera.SetViewUp(view.up.data());
  camera.SetParallelScale(0.5 * frame.view_height() * scale);
  renderer->ResetCameraClippingRange();
  return renderer;
}

/// Words go outward, away from the middle of the view (-1: to the left), unless the picture's edge would cut
/// them.
double side_of(const SceneMark& mark, Pixel at, Pixel middle) {
  constexpr double leader = 70, letter = 12;
  const double needed = leader + letter * static_cast<double>(mark.text.size());
  return at.x < middle.x && at.x > needed ? -1 : 1;
}

void add_mark(vtkRenderer& overlay, const SceneMark& mark, Pixel at, double side) {
  const Align align = side > 0 ? Align::left : Align::right;
  if (!mark.ring) {
    overlay.AddActor2D(
        text_actor(mark.text, {at.x + side * 28, at.y},
                   {.size_px = 16, .align = align, .grey = 0.1, .bold = false, .on_white = true}));
    return;
  }
  constexpr double radius = 9;
  std::vector<Pixel> ring;
  for (int i = 0; i <= 32; ++i) {
    const double angle = 2 * std::numbers::pi * i / 32;
    ring.push_back({at.x + radius * std::cos(angle), at.y + radius * std::sin(angle)});
  }
  const std::vector<Pixel> leader{{at.x + side * radius * 0.71, at.y + radius * 0.71},
                                  {at.x + side * 40, at.y + 40},
                                  {at.x + side * 60, at.y + 40}};
  for (const auto& line : {ring, leader}) {
    overlay.AddActor2D(stroke(line, 0.0, 2));  // of flat actors, the first one drawn stays on top
    overlay.AddActor2D(stroke(line, 1.0, 5));
  }
  overlay.AddActor2D(
      text_actor(mark.text, {at.x + side * 65, at.y + 40},
                 {.size_px = 20, .align = align, .grey = 0.0, .bold = true, .on_white = true}));
}

void add_bar(vtkRenderer& overlay, const Scene& scene, const Frame& frame) {
  const double bar_height = std::min(frame.inner_height(), 810.0);
  const Pixel low{frame.width - right_strip + 35, frame.height - top_strip - 0.88 * bar_height};
  const Pixel high{low.x + 30, frame.height - top_strip - 0.16 * bar_height};
  const auto y_of = [&](double value) { return low.y + (high.y - low.y) * value / scene.highest; };
  const auto n_beyond = std::count_if(scene.bar_marks.begin(), scene.bar_marks.end(),
                                      [&](const BarMark& m) { return m.value > scene.highest; });
  const double title_y = high.y + 45 + 24 * static_cast<double>(n_beyond);
  overlay.AddActor2D(text_actor(scene.bar_title, {low.x - 10, title_y}, {.size_px = 18}));
  overlay.AddActor2D(stroke({low, {high.x, low.y}, high, {low.x, high.y}, low}, 0.2, 1));
  const auto near_mark = [&](double y) {
    return std::any_of(scene.bar_marks.begin(), scene.bar_marks.end(),
                       [&](const BarMark& m) { return std::abs(y_of(m.value) - y) < 26; });
  };
  for (const double value : round_ticks(scene.highest)) {
    overlay.AddActor2D(stroke({{high.x, y_of(value)}, {high.x + 6, y_of(value)}}, 0.2, 1));
    if (!near_mark(y_of(value)))
      overlay.AddActor2D(text_actor(value > 0 ? fmt::format("{:g}", value) : "0 or less",
                                    {high.x + 12, y_of(value)}, {.size_px = 18}));
  }
  double lowest_free = -1e9;
  for (const BarMark& mark : scene.bar_marks) {
    const bool beyond = mark.value > scene.highest;
    const double y = beyond ? high.y + 20 : y_of(mark.value);
    if (!beyond) {
      overlay.AddActor2D(stroke({{low.x - 8, y}, {high.x + 8, y}}, 0.0, 2));
      overlay.AddActor2D(stroke({{low.x - 8, y}, {high.x + 8, y}}, 1.0, 5));
    }
    const double text_y = std::max(y, lowest_free);
    overlay.AddActor2D(text_actor(mark.text, {beyond ? low.x - 10 : high.x + 12, text_y},
                                  {.size_px = 17, .align = Align::left, .grey = 0.0, .bold = true}));
    lowest_free = text_y + 22;
  }
  overlay.AddActor2D(colour_column(low, high));
}

/// A bar of whole millimetres at the lower left.
void add_length(vtkRenderer& overlay, double scale) {
  const double mm = scale * 300 > 5 ? 2 : 1;
  const Pixel a{30, bottom_strip + 12}, b{30 + mm / scale, bottom_strip + 12};
  overlay.AddActor2D(stroke({{a.x, a.y + 5}, a, b, {b.x, b.y + 5}}, 0.1, 2));
  overlay.AddActor2D(text_actor(fmt::format("{:g} mm", mm), {b.x + 10, a.y + 2}, {.size_px = 16}));
}

void add_texts(vtkRenderer& overlay, const Scene& scene, const Frame& frame) {
  overlay.AddActor2D(text_actor(scene.title, {30, frame.height - 32},
                                {.size_px = 26, .align = Align::left, .grey = 0.0, .bold = true}));
  overlay.AddActor2D(text_actor(scene.subtitle, {30, frame.height - 68},
                                {.size_px = 20, .align = Align::left, .grey = 0.25}));
  overlay.AddActor2D(text_actor(scene.note, {30, 58}, {.size_px = 18, .align = Align::left, .grey = 0.1}));
  overlay.AddActor2D(text_actor(scene.caution, {30, 22}, {.size_px = 14, .align = Align::left, .grey = 0.4}));
}

}  // namespace

ViewGrid grid_of(std::size_t n_views) {
  constexpr std::size_t most = 4;
  const std::size_t rows = std::max<std::size_t>(1, (n_views + most - 1) / most);
  return {std::max<std::size_t>(1, (n_views + rows - 1) / rows), rows};
}

std::vector<double> round_ticks(double highest) {
  const double raw = highest / 5, power = std::pow(10.0, std::floor(std::log10(raw)));
  double step = 10 * power;
  for (const double candidate : {5.0, 2.5, 2.0, 1.0})
    if (candidate * power >= raw * 0.999) step = candidate * power;
  std::vector<double> ticks;
  for (int i = 0; i * step <= highest * 1.0001; ++i) ticks.push_back(i * step);
  return ticks;
}

std::string draw(const OffscreenWindow& canvas, const Scene& scene) {
  vtkGenericOpenGLRenderWindow& window = canvas.window();
  const int* const size = window.GetSize();
  const Frame frame(size[0], size[1], scene.views);
  const double scale = mm_per_pixel(scene, frame);
  std::vector<vtkSmartPointer<vtkRenderer>> renderers;
  vtkNew<vtkRenderer> background, overlay;
  background->SetBackground(1, 1, 1);
  overlay->SetLayer(1);
  window.AddRenderer(background);
  for (std::size_t i = 0; i < scene.views.size(); ++i) {
    const SceneView& view = scene.views[i];
    const ViewPort port(view, frame, i, scale);
    renderers.push_back(view_renderer(view, port, frame, i, scale, scene.highest));
    window.AddRenderer(renderers.back());
    for (const SceneMark& mark : view.marks) {
      const Pixel at = port.at(mark.at);
      add_mark(*overlay, mark, at, side_of(mark, at, port.middle()));
    }
    if (!view.caption.empty())
      overlay->AddActor2D(text_actor(
          view.caption, {port.middle().x, frame.bottom(i) + frame.view_height() + frame.caption_height / 2},
          {.size_px = 18, .align = Align::middle, .grey = 0.1, .bold = true}));
  }
  add_bar(*overlay, scene, frame);
  add_length(*overlay, scale);
  add_texts(*overlay, scene, frame);
  window.AddRenderer(overlay);
  std::string bytes = canvas.png();
  window.RemoveRenderer(overlay);
  window.RemoveRenderer(background);
  for (const auto& renderer : renderers) window.RemoveRenderer(renderer);
  return bytes;
}

}  // namespace crownproof
