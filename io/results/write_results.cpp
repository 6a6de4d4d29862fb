// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/results/write_results.hpp"

#include <algorithm>
#include <chrono>
#include <future>
#include <utility>

#include <fmt/format.h>

#include "io/charts/strength_charts.hpp"
#include "io/pictures/draw_scene.hpp"
#include "io/pictures/pictures.hpp"
#include "io/record/manifest.hpp"
#include "io/record/run_record.hpp"
#include "io/results/results_folder.hpp"
#include "io/tables/column.hpp"
#include "io/tables/tables.hpp"
#include "io/text/file_name.hpp"
#include "io/vtk/study_pvd.hpp"
#include "io/vtk/vtu.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/studied_body.hpp"

namespace crownproof {
namespace {

/// Adds the wall time of its life to a stage.
class Stopwatch {
 public:
  explicit Stopwatch(double& seconds) : seconds_(seconds) {}
  ~Stopwatch() {
    seconds_ += std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
  }
  Stopwatch(const Stopwatch&) = delete;
  Stopwatch& operator=(const Stopwatch&) = delete;

 private:
  double& seconds_;
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

}  // namespace

struct ResultsWriter::Parts {
  Parts(const std::filesystem::path& asked, bool force) : folder(asked, force) {}

  ResultsFolder folder;
  std::vector<VariantRecord> added;
  std::vector<std::string> field_files;
  std::vector<std::string> warnings;
  std::vector<std::vector<StudyPanel>> panels;  // [variant][bite]
  std::unique_ptr<OffscreenWindow> canvas;      // shared by all pictures of one size
  double fields_s = 0, pictures_s = 0, tables_s = 0;

  /// Files of a study's variant go into a folder of its own.
  std::string prefix(const VariantRecord& variant) const {
    const std::size_t number = added.size() + 1;
    return variant.label.empty() ? "" : fmt::format("{:02}_{}/", number, file_safe(variant.label, "variant"));
  }

  void write_fields(const VariantRecord& variant, const Fields& fields, const std::string& prefix) {
    const Stopwatch watch(fields_s);
    field_files.push_back(prefix + "fields.vtu");
    write_vtk_grid(folder.place(field_files.back()), grid_of(*variant.model, fields));
  }

  /// Pictures are welcome, never needed: what stops them becomes a warning, once.
  template <class Drawing>
  void try_to_draw(const Drawing& drawing) {
    const Stopwatch watch(pictures_s);
    try {
      drawing();
    } catch (const CannotDraw& error) {
      note(error.what());
    }
  }

  void draw_bites(const VariantRecord& variant, const Fields& fields, const std::string& prefix) {
    if (!canvas) canvas = std::make_unique<OffscreenWindow>(picture_width, picture_height);
    std::vector<std::pair<std::string, std::future<std::string>>> drawn;  // file and bytes
    for (std::size_t b = 0; b < variant.report.bites.size(); ++b) {
      const std::string bite = file_safe(variant.report.bites[b].name, fmt::format("bite_{}", b + 1));
      for (const NamedScene& picture : pictures_of_bite(variant, fields, b))
        drawn.emplace_back(fmt::format("{}{}_{}.png", prefix, bite, picture.name),
                           draw(*canvas, picture.scene));
    }
    for (auto& [file, png] : drawn) {
      const std::string bytes = png.get();  // before a place is taken for it: it may throw
      write_file(folder.place(file), bytes);
    }
    note_complaints();
  }

  void draw_study(const RunRecord& run) {
    const Scene scene = study_scene(run.title, added, panels);
    const ViewGrid grid = grid_of(scene.views.size());
    const int columns = static_cast<int>(grid.columns), rows = static_cast<int>(grid.rows);
    canvas = nullptr;  // one drawing context at a time
    canvas = std::make_unique<OffscreenWindow>(std::max(picture_width, 380 * columns + 250),
                                               study_strips_height + rows * study_row_height);
    const std::string png = draw(*canvas, scene).get();
    write_file(folder.place("study.png"), png);
    note_complaints();
  }

  void note_complaints() {
    for (const std::string& complaint : canvas->complaints())
      note("While drawing, VTK complained: " + complaint);
  }

  /// Diagrams of the material's strength, where a case depends on them: angle if layered, time if years are
  /// asked for.
  void write_charts(const VariantRecord& variant, const std::string& prefix) {
    const Stopwatch watch(tables_s);
    const RegionMaterial& studied = material_under_study(*variant.model);
    const MaterialStrength& strength = *studied.material.strength;
    std::vector<ChartFile> charts;
    if (studied.layered) charts = angle_charts(studied.material.name, strength, studied.layer_planes);
    if (variant.model->requirement.chewing.years > 0)
      for (ChartFile& chart :
           time_charts(studied.material.name, strength, variant.model->requirement.chewing))
        charts.push_back(std::move(chart));
    for (const ChartFile& chart : charts) write_file(folder.place(prefix + chart.name), chart.content);
  }

  /// Each once.
  void note(const std::string& warning) {
    if (std::find(warnings.begin(), warnings.end(), warning) == warnings.end()) warnings.push_back(warning);
  }

  void write_tables(const RunRecord& run) {
    const Stopwatch watch(tables_s);
    write_file(folder.place("summary.csv"), summary_csv(added));
    write_file(folder.place("summary.json"), summary_json(run.title, added));
    if (added.size() > 1) write_file(folder.place("study.pvd"), study_pvd(field_files));
  }
};

ResultsWriter::ResultsWriter(const std::filesystem::path& folder, bool force)
    : parts_(std::make_unique<Parts>(folder, force)) {}
ResultsWriter::~ResultsWriter() = default;
ResultsWriter::ResultsWriter(ResultsWriter&&) noexcept = default;

void ResultsWriter::add(const VariantRecord& variant, const Fields& fields) {
  const std::string prefix = parts_->prefix(variant);
  parts_->write_fields(variant, fields, prefix);
  parts_->write_charts(variant, prefix);
  parts_->try_to_draw([&] { parts_->draw_bites(variant, fields, prefix); });
  if (!variant.label.empty()) {
    parts_->panels.emplace_back();
    for (std::size_t b = 0; b < variant.report.bites.size(); ++b)
      parts_->panels.back().push_back(study_panel(variant, fields, b));
  }
  parts_->added.push_back(variant);
}

WrittenResults ResultsWriter::finish(const RunRecord& run) {
  Parts& parts = *parts_;
  parts.write_tables(run);
  if (parts.panels.size() > 1) parts.try_to_draw([&] { parts.draw_study(run); });
  const std::vector<StageTime> times{
      {"fields", parts.fields_s}, {"pictures", parts.pictures_s}, {"tables", parts.tables_s}};
  const std::filesystem::path manifest = parts.folder.place(std::string(manifest_name));
  WrittenFacts facts{parts.folder.files(), times, parts.warnings, {}};
  for (const SummaryColumn& column : summary_columns())
    facts.columns.emplace_back(column.name, column.meaning);
  write_file(manifest, manifest_json(run, parts.added, facts));
  parts.folder.publish();
  return {parts.folder.folder(), parts.folder.files(), parts.warnings, times};
}

void ResultsWriter::note(const std::string& warning) {
  parts_->note(warning);
}

std::span<const VariantRecord> ResultsWriter::added() const {
  return parts_->added;
}

}  // namespace crownproof
