// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/results/write_results.hpp"

#include <algorithm>
#include <chrono>
#include <new>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "io/charts/strength_charts.hpp"
#include "io/drawing/scene_file.hpp"
#include "io/pictures/pictures.hpp"
#include "io/pictures/thickness_picture.hpp"
#include "io/record/manifest.hpp"
#include "io/record/run_record.hpp"
#include "io/results/results_folder.hpp"
#include "io/results/waiting_pictures.hpp"
#include "io/tables/column.hpp"
#include "io/tables/tables.hpp"
#include "io/text/file_name.hpp"
#include "io/vtk/study_pvd.hpp"
#include "io/vtk/vtu.hpp"
#include "io/words/summary.hpp"
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
  std::optional<OutputFile> scenes;             // pictures to draw when all else is written
  std::vector<std::string> waiting;             // their files
  bool with_pictures = true;
  double fields_s = 0, pictures_s = 0, tables_s = 0;

  /// Files of a study's variant go into a folder of its own.
  std::string prefix(const VariantRecord& variant) const {
    const std::size_t number = added.size() + 1;
    return variant.label.empty() ? "" : fmt::format("{:02}_{}/", number, file_safe(variant.label, "variant"));
  }

  void write_fields(const VariantRecord& variant, const Fields& fields, const std::string& prefix) {
    const Stopwatch watch(fields_s);
    field_files.push_back(prefix + "fields.vtu");
    write_vtk_grid(folder.place(field_files.back()), variant.field_files == FieldFiles::surface
                                                         ? surface_grid_of(*variant.model, fields)
                                                         : grid_of(*variant.model, fields));
  }

  /// Scenes are welcome, never needed: what stops them becomes a note, and none is kept.
  template <class Work>
  void try_scenes(const Work& work) {
    const Stopwatch watch(pictures_s);
    if (!with_pictures) return;
    try {
      work();
    } catch (const ResultsError& error) {
      drop_scenes(error.what());
    } catch (const std::bad_alloc&) {
      drop_scenes("memory ran out.");
    }
  }

  void drop_scenes(const std::string& why) {
    note(fmt::format("Pictures are missing: {}", why));
    with_pictures = false;
    scenes.reset();
    waiting.clear();
    folder.drop(std::string(scenes_name));
  }

  void add_picture(const std::string& name, const PictureWishes& wishes, Scene scene) {
    const Picture picture{name + '.' + ending_of(wishes.format), wishes, std::move(scene)};
    if (!scenes) scenes.emplace(folder.place(std::string(scenes_name)));
    scenes->write(packed(picture));
    waiting.push_back(picture.file);
  }

  void add_bites(const VariantRecord& variant, const Fields& fields, const std::string& prefix) {
    for (std::size_t b = 0; b < variant.report.bites.size(); ++b) {
      const std::string bite = file_safe(variant.report.bites[b].name, fmt::format("bite_{}", b + 1));
      for (NamedScene& picture : pictures_of_bite(variant, fields, b))
        add_picture(prefix + bite + '_' + picture.name, variant.pictures, std::move(picture.scene));
    }
    if (auto thickness = thickness_picture(variant, fields))
      add_picture(prefix + "thickness", variant.pictures, std::move(*thickness));
    if (variant.label.empty()) return;
    panels.emplace_back();
    for (std::size_t b = 0; b < variant.report.bites.size(); ++b)
      panels.back().push_back(study_panel(variant, fields, b));
  }

  void add_study(const RunRecord& run) {
    add_picture("study", added.front().pictures, study_scene(run.title, added, panels));
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
    write_file(folder.place("summary.txt"),
               terminal_summary(run.title, added, {.warnings = warnings}, false));
    if (added.size() > 1 && !field_files.empty())
      write_file(folder.place("study.pvd"), study_pvd(field_files));
  }

  std::vector<StageTime> times() const {
    return {{"fields", fields_s}, {"pictures", pictures_s}, {"tables", tables_s}};
  }

  /// As it is if the program is killed while it draws.
  void write_manifest(const RunRecord& run) {
    const std::filesystem::path manifest = folder.place(std::string(manifest_name));
    std::vector<std::string> told = warnings;
    if (!waiting.empty()) told.push_back(missing_pictures(folder.folder(), "they are not drawn yet."));
    WrittenFacts facts{folder.files(), times(), told, {}, waiting};
    for (const SummaryColumn& column : summary_columns())
      facts.columns.emplace_back(column.name, column.meaning);
    write_file(manifest, manifest_json(run, added, facts));
  }

  /// The results are safe by now: what goes wrong becomes a warning.
  WrittenResults with_drawings(const Drawing& drawing) {
    WrittenResults written{folder.folder(), folder.files(), warnings, times()};
    if (waiting.empty()) return written;
    try {
      const Stopwatch watch(pictures_s);
      const DrawnResults drawn = draw_waiting_pictures(folder.folder(), drawing);
      written.files = drawn.files;
      written.warnings = drawn.warnings;
    } catch (const std::exception& error) {
      written.warnings.push_back(missing_pictures(folder.folder(), error.what()));
    }
    written.timings = times();
    return written;
  }
};

ResultsWriter::ResultsWriter(const std::filesystem::path& folder, bool force)
    : parts_(std::make_unique<Parts>(folder, force)) {}
ResultsWriter::~ResultsWriter() = default;
ResultsWriter::ResultsWriter(ResultsWriter&&) noexcept = default;

void ResultsWriter::add(const VariantRecord& variant, const Fields& fields) {
  const std::string prefix = parts_->prefix(variant);
  if (variant.field_files != FieldFiles::none) parts_->write_fields(variant, fields, prefix);
  parts_->write_charts(variant, prefix);
  parts_->try_scenes([&] { parts_->add_bites(variant, fields, prefix); });
  parts_->added.push_back(variant);
}

WrittenResults ResultsWriter::finish(const RunRecord& run, const Drawing& drawing) {
  Parts& parts = *parts_;
  parts.write_tables(run);
  if (parts.panels.size() > 1) parts.try_scenes([&] { parts.add_study(run); });
  if (parts.scenes) parts.try_scenes([&] { parts.scenes->close(); });
  parts.write_manifest(run);
  parts.folder.publish();
  return parts.with_drawings(drawing);
}

void ResultsWriter::note(const std::string& warning) {
  parts_->note(warning);
}

std::span<const VariantRecord> ResultsWriter::added() const {
  return parts_->added;
}

}  // namespace crownproof
