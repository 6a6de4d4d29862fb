// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/results/results_folder.hpp"

#include <fstream>

#include <unistd.h>
#include <catch2/catch.hpp>

#include "tests/support/scratch_folder.hpp"

using namespace crownproof;
namespace fs = std::filesystem;

namespace {

void write_results_like(const fs::path& folder, bool force, const std::string& text) {
  ResultsFolder results(folder, force);
  write_file(results.place("summary.csv"), text);
  write_file(results.place("a/fields.vtu"), text);
  write_file(results.place("manifest.json"),
             R"({"program": "crownproof", "files": ["summary.csv", "a/fields.vtu"]})");
  results.publish();
}

std::string content(const fs::path& path) {
  std::ifstream stream(path);
  return {std::istreambuf_iterator<char>(stream), {}};
}

int entries(const fs::path& folder) {
  return static_cast<int>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

}  // namespace

TEST_CASE("Results appear under their name only when published", "[results_folder]") {
  const ScratchFolder scratch;
  const fs::path folder = scratch.path() / "deep" / "er" / "results";
  {
    ResultsFolder results(folder, false);
    write_file(results.place("summary.csv"), "zone\n");
    CHECK_FALSE(fs::exists(folder));
    CHECK(entries(folder.parent_path()) == 1);
    results.publish();
    CHECK(content(folder / "summary.csv") == "zone\n");
  }
  CHECK(entries(folder.parent_path()) == 1);
}

TEST_CASE("A run that is stopped leaves nothing", "[results_folder]") {
  const ScratchFolder scratch;
  try {
    ResultsFolder results(scratch.path() / "results", false);
    write_file(results.place("summary.csv"), "half");
    throw std::runtime_error("stopped");
  } catch (const std::runtime_error&) {
  }
  CHECK(entries(scratch.path()) == 0);
}

TEST_CASE("Former results are kept, or replaced whole with force", "[results_folder]") {
  const ScratchFolder scratch;
  const fs::path folder = scratch.path() / "results";
  write_results_like(folder, false, "first");
  CHECK_THROWS_WITH(ResultsFolder(folder, false), Catch::Contains("already holds results; they are kept"));
  CHECK(content(folder / "summary.csv") == "first");

  write_results_like(folder / "", true, "second");
  CHECK(content(folder / "summary.csv") == "second");
  CHECK(content(folder / "a/fields.vtu") == "second");
  CHECK(entries(scratch.path()) == 1);
}

TEST_CASE("A stopped run with force keeps the former results", "[results_folder]") {
  const ScratchFolder scratch;
  const fs::path folder = scratch.path() / "results";
  write_results_like(folder, false, "first");
  {
    ResultsFolder results(folder, true);
    write_file(results.place("summary.csv"), "half");
  }
  CHECK(content(folder / "summary.csv") == "first");
  CHECK(entries(scratch.path()) == 1);
}

TEST_CASE("Force never removes what the program did not write", "[results_folder]") {
  const ScratchFolder scratch;
  const fs::path folder = scratch.path() / "results";
  write_results_like(folder, false, "first");
  write_file(folder / "notes.txt", "mine");
  CHECK_THROWS_WITH(ResultsFolder(folder, true), Catch::Contains("'notes.txt'"));
  CHECK(content(folder / "notes.txt") == "mine");

  fs::create_directory(scratch.path() / "photos");
  write_file(scratch.path() / "photos" / "holiday.jpg", "mine");
  CHECK_THROWS_WITH(ResultsFolder(scratch.path() / "photos", true), Catch::Contains("holiday.jpg"));
  CHECK(content(scratch.path() / "photos" / "holiday.jpg") == "mine");
}

TEST_CASE("Files added while a run computes stop the replacement", "[results_folder]") {
  const ScratchFolder scratch;
  const fs::path folder = scratch.path() / "results";
  ResultsFolder results(folder, false);
  write_file(results.place("summary.csv"), "ours");
  fs::create_directory(folder);
  write_file(folder / "summary.csv", "theirs");
  CHECK_THROWS_AS(results.publish(), ResultsError);
  CHECK(content(folder / "summary.csv") == "theirs");
}

TEST_CASE("An empty folder may be filled, a file may not be replaced", "[results_folder]") {
  const ScratchFolder scratch;
  fs::create_directory(scratch.path() / "empty");
  write_results_like(scratch.path() / "empty", false, "text");
  CHECK(content(scratch.path() / "empty" / "summary.csv") == "text");

  write_file(scratch.path() / "file", "mine");
  CHECK_THROWS_WITH(ResultsFolder(scratch.path() / "file", true), Catch::Contains("is a file, not a folder"));
  CHECK_THROWS_WITH(ResultsFolder(scratch.path() / "file" / "results", true),
                    Catch::Contains("is a file, not a folder"));
  CHECK_THROWS_WITH(ResultsFolder("/", true), Catch::Contains("root of the disk"));
}

TEST_CASE("A link is followed, not replaced", "[results_folder]") {
  const ScratchFolder scratch;
  const fs::path target = scratch.path() / "disk" / "runs", link = scratch.path() / "link";
  fs::create_directories(target);
  fs::create_directory_symlink(target, link);
  write_results_like(link, false, "first");
  CHECK(fs::is_symlink(link));
  CHECK(content(target / "summary.csv") == "first");
  CHECK_THROWS_WITH(ResultsFolder(link, false), Catch::Contains("already holds results"));
  write_results_like(link, true, "second");
  CHECK(content(target / "summary.csv") == "second");
  CHECK(entries(target.parent_path()) == 1);

  fs::remove_all(target);
  CHECK_THROWS_WITH(ResultsFolder(link, true), Catch::Contains("leads nowhere"));
}

TEST_CASE("Places where nothing can be written are named with a remedy", "[results_folder]") {
  CHECK_THROWS_WITH(ResultsFolder("/proc/results", false), Catch::Contains("Cannot write '/proc/results'"));
  const ScratchFolder scratch;
  fs::permissions(scratch.path(), fs::perms::owner_read | fs::perms::owner_exec);
  if (::access(scratch.path().c_str(), W_OK) != 0)  // root may write anywhere
    CHECK_THROWS_WITH(ResultsFolder(scratch.path() / "results", false),
                      Catch::Contains("you may not write there"));
  fs::permissions(scratch.path(), fs::perms::owner_all);
}

TEST_CASE("Leftovers of killed runs go, those of living ones stay", "[results_folder]") {
  const ScratchFolder scratch;
  const fs::path folder = scratch.path() / "results";
  fs::path growing;
  {
    ResultsFolder results(folder, false);
    growing = results.place("x").parent_path();
  }
  const std::string prefix = growing.string().substr(0, growing.string().rfind('-') + 1);
  const fs::path dead = prefix + "2147483646", alive = prefix + std::to_string(::getppid());
  fs::create_directory(dead);
  fs::create_directory(alive);
  ResultsFolder results(folder, false);
  CHECK_FALSE(fs::exists(dead));
  CHECK(fs::exists(alive));
}
