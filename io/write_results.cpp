// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/write_results.hpp"

#include <chrono>

#include <fmt/format.h>

#include "io/manifest.hpp"
#include "io/results_folder.hpp"
#include "io/study_pvd.hpp"
#include "io/tables.hpp"
#include "io/vtu.hpp"

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
  Parts(std::filesystem::path asked, bool force) : folder(std::move(asked), force) {}

  ResultsFolder folder;
  std::vector<VariantRecord> added;  // without their fields
  std::vector<std::string> field_files;
  std::vector<std::string> warnings;
  double fields_s = 0, pictures_s = 0, tables_s = 0;

  /// Files of a study's variant go into a folder of its own.
  std::string prefix(const VariantRecord& variant) const {
    const std::size_t number = added.size() + 1;
    return variant.label.empty() ? "" : fmt::format("{:02}_{}/", number, file_safe(variant.label, "variant"));
  }

  void write_fields(const VariantRecord& variant, const std::string& prefix) {
    const Stopwatch watch(fields_s);
    field_files.push_back(prefix + "fields.vtu");
    write_vtk_grid(folder.place(field_files.back()), fields_of(variant.model, variant.result));
  }

  void write_tables(const RunRecord& run) {
    const Stopwatch watch(tables_s);
    write_file(folder.place("summary.csv"), summary_csv(added));
    write_file(folder.place("summary.json"), summary_json(run.title, added));
    if (added.size() > 1) write_file(folder.place("study.pvd"), study_pvd(field_files));
  }
};

ResultsWriter::ResultsWriter(std::filesystem::path folder, bool force)
    : parts_(std::make_unique<Parts>(std::move(folder), force)) {}
ResultsWriter::~ResultsWriter() = default;
ResultsWriter::ResultsWriter(ResultsWriter&&) noexcept = default;

void ResultsWriter::add(const VariantRecord& variant) {
  const std::string prefix = parts_->prefix(variant);
  parts_->write_fields(variant, prefix);
  parts_->added.push_back(without_fields(variant));
}

WrittenResults ResultsWriter::finish(const RunRecord& run) {
  Parts& parts = *parts_;
  parts.write_tables(run);
  const std::vector<StageTime> times{
      {"fields", parts.fields_s}, {"pictures", parts.pictures_s}, {"tables", parts.tables_s}};
  const std::filesystem::path manifest = parts.folder.place(std::string(manifest_name));
  write_file(manifest, manifest_json(run, parts.added, parts.folder.files(), times, parts.warnings));
  parts.folder.publish();
  return {parts.folder.folder(), parts.folder.files(), parts.warnings, times};
}

std::span<const VariantRecord> ResultsWriter::added() const {
  return parts_->added;
}

WrittenResults write_results(const RunRecord& run, std::span<const VariantRecord> variants,
                             const std::filesystem::path& folder, bool force) {
  ResultsWriter writer(folder, force);
  for (const VariantRecord& variant : variants) writer.add(variant);
  return writer.finish(run);
}

}  // namespace crownproof
