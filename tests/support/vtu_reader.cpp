// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/support/vtu_reader.hpp"

#include <vtkCellData.h>
#include <vtkFieldData.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkStringArray.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridReader.h>

namespace crownproof {
namespace {

std::vector<double> numbers(vtkDataArray& array) {
  std::vector<double> values;
  for (vtkIdType i = 0; i < array.GetNumberOfTuples(); ++i)
    for (int k = 0; k < array.GetNumberOfComponents(); ++k) values.push_back(array.GetComponent(i, k));
  return values;
}

std::map<std::string, std::vector<double>> all_numbers(vtkFieldData& data) {
  std::map<std::string, std::vector<double>> arrays;
  for (int i = 0; i < data.GetNumberOfArrays(); ++i)
    if (vtkDataArray* const array = data.GetArray(i)) arrays[array->GetName()] = numbers(*array);
  return arrays;
}

}  // namespace

VtuContent read_vtu(const std::filesystem::path& path) {
  vtkNew<vtkXMLUnstructuredGridReader> reader;
  reader->SetFileName(path.c_str());
  reader->Update();
  vtkUnstructuredGrid& grid = *reader->GetOutput();

  VtuContent content;
  content.whole = reader->GetErrorCode() == 0 && grid.GetNumberOfPoints() > 0;
  if (!content.whole) return content;
  content.points = numbers(*grid.GetPoints()->GetData());
  for (vtkIdType c = 0; c < grid.GetNumberOfCells(); ++c) {
    content.cell_types.push_back(grid.GetCellType(c));
    vtkIdList& ids = *grid.GetCell(c)->GetPointIds();
    content.cells.emplace_back();
    for (vtkIdType k = 0; k < ids.GetNumberOfIds(); ++k)
      content.cells.back().push_back(static_cast<int>(ids.GetId(k)));
  }
  content.point_data = all_numbers(*grid.GetPointData());
  content.cell_data = all_numbers(*grid.GetCellData());
  content.field_data = all_numbers(*grid.GetFieldData());
  for (int i = 0; i < grid.GetFieldData()->GetNumberOfArrays(); ++i)
    if (auto* const texts = vtkStringArray::SafeDownCast(grid.GetFieldData()->GetAbstractArray(i)))
      for (vtkIdType k = 0; k < texts->GetNumberOfValues(); ++k)
        content.field_texts[texts->GetName()].push_back(texts->GetValue(k));
  for (int i = 0; i < grid.GetPointData()->GetNumberOfArrays(); ++i) {
    vtkDataArray& array = *grid.GetPointData()->GetArray(i);
    for (int k = 0; k < array.GetNumberOfComponents(); ++k)
      if (const char* const name = array.GetComponentName(k))
        content.component_names[array.GetName()].push_back(name);
  }
  return content;
}

}  // namespace crownproof
