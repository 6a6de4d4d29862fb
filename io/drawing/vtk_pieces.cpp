// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/vtk_pieces.hpp"

#include <vtkCellArray.h>
#include <vtkDoubleArray.h>
#include <vtkLookupTable.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkPolyDataMapper.h>
#include <vtkProperty.h>

#include "io/drawing/strength_ramp.hpp"

namespace crownproof {
namespace {

constexpr int n_colours = 256;

vtkSmartPointer<vtkLookupTable> colours(const SceneScale& scale) {
  vtkNew<vtkLookupTable> table;
  table->SetNumberOfTableValues(n_colours);
  table->SetTableRange(0, scale.highest);
  for (int i = 0; i < n_colours; ++i) {
    const double t = i / (n_colours - 1.0);
    const Vec3 c = strength_ramp(scale.low_is_strong ? 1 - t : t);
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

vtkSmartPointer<vtkActor> surface_actor(const SceneSurface& scene, const SceneScale& scale) {
  const auto data = poly_data(scene.surface);
  if (scene.lit) add_normals(*data, scene.surface);
  vtkNew<vtkPolyDataMapper> mapper;
  mapper->SetInputData(data);
  mapper->SetScalarVisibility(scene.coloured);
  mapper->SetLookupTable(colours(scale));
  mapper->UseLookupTableScalarRangeOn();
  mapper->InterpolateScalarsBeforeMappingOn();
  vtkNew<vtkActor> actor;
  actor->SetMapper(mapper);
  vtkProperty& look = *actor->GetProperty();
  look.SetColor(scene.grey, scene.grey, scene.grey);
  look.SetSpecular(0);
  look.SetLighting(scene.lit);
  look.SetAmbient(scene.lit ? 0.5 : 1.0);
  look.SetDiffuse(scene.lit ? 0.55 : 0.0);
  return actor;
}

vtkSmartPointer<vtkActor> lines_actor(const SceneLines& lines, const Vec3& towards_eye, double px_per_pt) {
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
  actor->GetProperty()->SetLineWidth(static_cast<float>(lines.width_pt * px_per_pt));
  return actor;
}

}  // namespace crownproof
