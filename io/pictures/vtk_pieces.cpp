// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/pictures/vtk_pieces.hpp"

#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkDoubleArray.h>
#include <vtkLookupTable.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkPolyDataMapper.h>
#include <vtkPolyDataMapper2D.h>
#include <vtkProperty.h>
#include <vtkProperty2D.h>
#include <vtkTextProperty.h>
#include <vtkUnsignedCharArray.h>

#include "io/charts/viridis.hpp"

namespace crownproof {
namespace {

constexpr int n_colours = 256;

vtkSmartPointer<vtkLookupTable> colours(double highest) {
  vtkNew<vtkLookupTable> table;
  table->SetNumberOfTableValues(n_colours);
  table->SetTableRange(0, highest);
  for (int i = 0; i < n_colours; ++i) {
    const Vec3 c = viridis(i / (n_colours - 1.0));
    table->SetTableValue(i, c.x(), c.y(), c.z());
  }
  return table;
}

vtkSmartPointer<vtkPolyData> poly_data(const ValueSurface& surface) {
  vtkNew<vtkPoints> points;
  for (const Vec3& p : surface.points) points->InsertNextPoint(p.data());
  vtkNew<vtkCellArray> triangles;
  for (const auto& t : surface.triangles) triangles->InsertNextCell({t[0], t[1], t[2]});
  vtkNew<vtkDoubleArray> values;
  for (const double v : surface.values) values->InsertNextValue(v);
  vtkNew<vtkPolyData> data;
  data->SetPoints(points);
  data->SetPolys(triangles);
  data->GetPointData()->SetScalars(values);
  return data;
}

/// Normals at the points: the mean of the triangles' around each, weighted by area.
void add_normals(vtkPolyData& data, const ValueSurface& surface) {
  std::vector<Vec3> normals(surface.points.size(), Vec3::Zero());
  for (const auto& t : surface.triangles) {
    const Vec3 a = surface.points[t[1]] - surface.points[t[0]],
               b = surface.points[t[2]] - surface.points[t[0]];
    const Vec3 n(a.y() * b.z() - a.z() * b.y(), a.z() * b.x() - a.x() * b.z(), a.x() * b.y() - a.y() * b.x());
    for (const int k : t) normals[k] += n;
  }
  vtkNew<vtkDoubleArray> array;
  array->SetNumberOfComponents(3);
  for (const Vec3& n : normals) array->InsertNextTuple(Vec3(n.normalized()).data());
  data.GetPointData()->SetNormals(array);
}

}  // namespace

vtkSmartPointer<vtkActor> surface_actor(const SceneSurface& scene, double highest) {
  const auto data = poly_data(scene.surface);
  if (scene.lit) add_normals(*data, scene.surface);
  vtkNew<vtkPolyDataMapper> mapper;
  mapper->SetInputData(data);
  mapper->SetScalarVisibility(scene.coloured);
  mapper->SetLookupTable(colours(highest));
  mapper->UseLookupTableScalarRangeOn();
  mapper->InterpolateScalarsBeforeMappingOn();
  vtkNew<vtkActor> actor;
  actor->SetMapper(mapper);
  vtkProperty& look = *actor->GetProperty();
  look.SetColor(scene.grey, scene.grey, scene.grey);
  look.SetSpecular(0);
  look.SetLighting(scene.lit);
  look.SetAmbient(scene.lit ? 0.5 : 1.0);
  look.SetDiffuse(scene.lit ? 0.6 : 0.0);
  return actor;
}

vtkSmartPointer<vtkActor> lines_actor(const SceneLines& lines, const Vec3& towards_eye) {
  vtkNew<vtkPoints> points;
  vtkNew<vtkCellArray> cells;
  for (const auto& [a, b] : lines.segments) {
    const vtkIdType first = points->InsertNextPoint(Vec3(a + lines.lift_mm * towards_eye).data());
    cells->InsertNextCell({first, points->InsertNextPoint(Vec3(b + lines.lift_mm * towards_eye).data())});
  }
  vtkNew<vtkPolyData> data;
  data->SetPoints(points);
  data->SetLines(cells);
  vtkNew<vtkPolyDataMapper> mapper;
  mapper->SetInputData(data);
  vtkNew<vtkActor> actor;
  actor->SetMapper(mapper);
  actor->GetProperty()->SetLighting(false);
  actor->GetProperty()->SetColor(lines.grey, lines.grey, lines.grey);
  actor->GetProperty()->SetLineWidth(static_cast<float>(lines.width_px));
  return actor;
}

vtkSmartPointer<vtkTextActor> text_actor(const std::string& text, Pixel at, const TextLook& look) {
  vtkNew<vtkTextActor> actor;
  actor->SetInput(text.c_str());
  actor->SetPosition(at.x, at.y);
  vtkTextProperty& property = *actor->GetTextProperty();
  property.SetFontSize(look.size_px);
  property.SetColor(look.grey, look.grey, look.grey);
  property.SetBold(look.bold);
  property.SetVerticalJustificationToCentered();
  if (look.align == Align::middle) property.SetJustificationToCentered();
  if (look.align == Align::right) property.SetJustificationToRight();
  if (look.on_white) {
    property.SetBackgroundColor(1, 1, 1);
    property.SetBackgroundOpacity(0.8);
  }
  return actor;
}

vtkSmartPointer<vtkActor2D> stroke(const std::vector<Pixel>& corners, double grey, double width_px) {
  vtkNew<vtkPoints> points;
  vtkNew<vtkCellArray> cells;
  cells->InsertNextCell(static_cast<int>(corners.size()));
  for (const Pixel& p : corners) cells->InsertCellPoint(points->InsertNextPoint(p.x, p.y, 0));
  vtkNew<vtkPolyData> data;
  data->SetPoints(points);
  data->SetLines(cells);
  vtkNew<vtkPolyDataMapper2D> mapper;
  mapper->SetInputData(data);
  vtkNew<vtkActor2D> actor;
  actor->SetMapper(mapper);
  actor->GetProperty()->SetColor(grey, grey, grey);
  actor->GetProperty()->SetLineWidth(static_cast<float>(width_px));
  return actor;
}

vtkSmartPointer<vtkActor2D> colour_column(Pixel low, Pixel high) {
  vtkNew<vtkPoints> points;
  vtkNew<vtkCellArray> cells;
  vtkNew<vtkUnsignedCharArray> shades;
  shades->SetNumberOfComponents(3);
  for (int i = 0; i < n_colours; ++i) {
    const double y0 = low.y + (high.y - low.y) * i / n_colours,
                 y1 = low.y + (high.y - low.y) * (i + 1) / n_colours;
    const vtkIdType first = points->InsertNextPoint(low.x, y0, 0);
    points->InsertNextPoint(high.x, y0, 0);
    points->InsertNextPoint(high.x, y1, 0);
    points->InsertNextPoint(low.x, y1, 0);
    cells->InsertNextCell({first, first + 1, first + 2, first + 3});
    const Vec3 c = 255 * viridis(i / (n_colours - 1.0));
    shades->InsertNextTuple3(c.x(), c.y(), c.z());
  }
  vtkNew<vtkPolyData> data;
  data->SetPoints(points);
  data->SetPolys(cells);
  data->GetCellData()->SetScalars(shades);
  vtkNew<vtkPolyDataMapper2D> mapper;
  mapper->SetInputData(data);
  vtkNew<vtkActor2D> actor;
  actor->SetMapper(mapper);
  return actor;
}

}  // namespace crownproof
