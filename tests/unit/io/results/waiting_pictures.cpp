// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/results/waiting_pictures.hpp"

#include <algorithm>
#include <fstream>
#include <memory>
#include <set>

#include <catch2/catch.hpp>

#include "io/drawing/scene_file.hpp"
#include "io/record/manifest.hpp"
#include "io/record/run_record.hpp"
#include "io/results/results_folder.hpp"
#include "io/results/write_results.hpp"
#include "solver/model/model.hpp"
#include "tests/support/sample_case.hpp"
#include "tests/support/scratch_folder.hpp"

using namespace crownproof;
namespace fs = std::filesystem;

namespace {

WrittenResults run_with(const Drawing& drawing, const fs::path& folder) {
  static const SampleCase sample = sample_case(2);
  ResultsWriter writer(folder, false);
  writer.add({.model = std::make_shared<const Model>(sample.model), .report = sample.result.report},
             sample.result.fields);
  return writer.finish({.title = "block"}, drawing);
}

/// Draws so many pictures, then fails.
Drawing draws(std::size_t n) {
  return [n](const fs::path& scenes, const fs::path& folder) {
    DrawnPictures drawn;
    for_each_picture(scenes, [&](const Picture& picture) {
      if (drawn.files.size() == n) return;
      write_file(folder / picture.file, "PNG");
      drawn.files.push_back(picture.file);
    });
    drawn.failure = "it broke.";
    return drawn;
  };
}

std::set<std::string> files_in(const fs::path& folder) {
  std::set<std::string> files;
  for (const auto& entry : fs::directory_iterator(folder)) files.insert(entry.path().filename().string());
  return files;
}

ManifestFiles manifest_in(const fs::path& folder) {
  std::ifstream stream(folder / manifest_name);
  return files_of({std::istreambuf_iterator<char>(stream), {}}).value();
}

/// The manifest lists what is there, or the next run would take our files for the user's.
void check_listed(const fs::path& folder) {
  const std::vector<std::string> listed = manifest_in(folder).files;
  CHECK(std::set<std::string>(listed.begin(), listed.end()) == files_in(folder));
  CHECK(files_in(folder.parent_path()).size() == 1);  // nothing hidden is left
}

}  // namespace

TEST_CASE("Results are there, whole and without pictures, before one is drawn", "[waiting_pictures]") {
  const ScratchFolder scratch;
  const fs::path folder = scratch.path() / "results";
  std::set<std::string> when_drawing;
  run_with(
      [&](const fs::path&, const fs::path&) {
        when_drawing = files_in(folder);
        CHECK_THAT(manifest_in(folder).warnings.at(0), Catch::Contains("crownproof draw"));
        return DrawnPictures{};
      },
      folder);
  for (const char* file : {"fields.vtu", "summary.csv", "summary.json", "manifest.json"})
    CHECK(when_drawing.contains(file));
  CHECK(std::none_of(when_drawing.begin(), when_drawing.end(),
                     [](const std::string& file) { return file.ends_with(".png"); }));
}

TEST_CASE("Pictures of variants that have no other file are drawn too", "[waiting_pictures]") {
  const SampleCase sample = sample_case(2);
  const ScratchFolder scratch;
  ResultsWriter writer(scratch.path() / "results", false);
  VariantRecord variant{.label = "thin", .model = std::make_shared<const Model>(sample.model)};
  variant.report = sample.result.report;
  variant.field_files = FieldFiles::none;
  writer.add(variant, sample.result.fields);
  const auto draw_all = [](const fs::path& scenes, const fs::path& folder) {
    DrawnPictures drawn;
    for_each_picture(scenes, [&](const Picture& picture) {
      fs::create_directories((folder / picture.file).parent_path());
      write_file(folder / picture.file, "PNG");
      drawn.files.push_back(picture.file);
    });
    return drawn;
  };
  const WrittenResults written = writer.finish({.title = "block"}, draw_all);
  CHECK(written.warnings.empty());
  CHECK(fs::exists(scratch.path() / "results" / "01_thin" / "clench_crown.png"));
}

TEST_CASE("Pictures that fail are told with a reason and drawn later", "[waiting_pictures]") {
  const ScratchFolder scratch;
  const fs::path folder = scratch.path() / "results";
  const WrittenResults written = run_with(draws(0), folder);
  REQUIRE(written.warnings.size() == 1);
  CHECK_THAT(written.warnings[0],
             Catch::StartsWith("Pictures are missing: it broke.") && Catch::Contains(folder.string()));
  CHECK(manifest_in(folder).warnings == written.warnings);
  const std::size_t all = manifest_in(folder).waiting.size();
  CHECK(all == 6);
  check_listed(folder);

  draw_waiting_pictures(folder, draws(2));  // some are better than none
  CHECK(manifest_in(folder).waiting.size() == all - 2);
  check_listed(folder);

  const DrawnResults now = draw_waiting_pictures(folder, draws(all));
  CHECK(now.failure.empty());
  CHECK(now.warnings.empty());
  CHECK(manifest_in(folder).waiting.empty());
  CHECK_FALSE(files_in(folder).contains(std::string(scenes_name)));
  check_listed(folder);
  CHECK(draw_waiting_pictures(folder, draws(0)).failure.empty());  // nothing is left to draw
}

TEST_CASE("A drawing that throws costs no results", "[waiting_pictures]") {
  const ScratchFolder scratch;
  const fs::path folder = scratch.path() / "results";
  const WrittenResults written = run_with(
      [](const fs::path&, const fs::path&) -> DrawnPictures { throw std::runtime_error("no"); }, folder);
  CHECK_THAT(written.warnings.at(0), Catch::Contains("Pictures are missing: no"));
  check_listed(folder);
}

TEST_CASE("Only results of this program have pictures to draw", "[waiting_pictures]") {
  const ScratchFolder scratch;
  CHECK_THROWS_WITH(draw_waiting_pictures(scratch.path(), draws(1)), Catch::Contains("holds no results"));
  CHECK_THROWS_WITH(draw_waiting_pictures(scratch.path() / "gone", draws(1)),
                    Catch::Contains("holds no results"));
}
