// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/draw_command.hpp"

#include <cstdlib>
#include <sstream>
#include <string>
#include <string_view>
#include <system_error>
#include <thread>

#include <fmt/format.h>

#include "io/exit_code.hpp"
#include "io/interrupt.hpp"
#include "io/machine/child_process.hpp"
#include "io/machine/threads.hpp"
#include "io/results/waiting_pictures.hpp"
#include "io/terminal.hpp"

namespace crownproof {
namespace {

/// A picture takes a second or two; the first one a few more, until the driver is ready.
constexpr std::chrono::seconds longest_silence{60};

constexpr std::string_view drawn_line = "drawn ", complaint_line = "complaint ";

std::string one_line(std::string text) {
  for (char& c : text)
    if (c == '\n') c = ' ';
  return text;
}

/// Reads the lines of draw_scenes_command(); what is no such line is how the process failed.
DrawnPictures understood(const ChildResult& child) {
  DrawnPictures result;
  std::istringstream said(child.said);
  for (std::string line; std::getline(said, line);) {
    if (line.starts_with(drawn_line))
      result.files.push_back(line.substr(drawn_line.size()));
    else if (line.starts_with(complaint_line))
      result.complaints.push_back(line.substr(complaint_line.size()));
    else
      result.failure += (result.failure.empty() ? "" : " ") + line;
  }
  if (!child.ended_by.empty())
    result.failure = fmt::format("while the program drew, {}.", child.ended_by);
  else if (result.failure.empty() && child.exit_code != exit_code::done)
    result.failure = fmt::format("the drawing process ended with code {}.", child.exit_code);
  return result;
}

}  // namespace

DrawnPictures draw_in_child(const std::filesystem::path& scenes, const std::filesystem::path& folder) {
  try {
    return understood(run_child({"/proc/self/exe", draw_scenes_name, scenes.string(), folder.string()},
                                longest_silence, interrupt_asked));
  } catch (const std::system_error& error) {
    return {.failure = fmt::format("no process can be started to draw them ({}; see 'ulimit -u').",
                                   error.code().message())};
  }
}

namespace {

/// The software renderer hangs where it cannot start its threads; told so it does without.
void draw_without_threads_if_need_be() {
  constexpr int others = 6;  // those of the driver beside one for each processor
  const int wanted = static_cast<int>(std::thread::hardware_concurrency()) + others;
  if (startable_threads(wanted) < wanted) ::setenv("LP_NUM_THREADS", "0", 0);
}

}  // namespace

int draw_scenes_command(const std::filesystem::path& scenes, const std::filesystem::path& folder) {
  end_with_parent();
  draw_without_threads_if_need_be();
  const DrawnPictures drawn = draw_pictures(
      scenes, folder, [](const std::string& file) { print(fmt::format("{}{}\n", drawn_line, file)); });
  for (const std::string& complaint : drawn.complaints)
    print(fmt::format("{}{}\n", complaint_line, one_line(complaint)));
  if (drawn.failure.empty()) return exit_code::done;
  print(one_line(drawn.failure) + "\n");
  return exit_code::internal;
}

int draw_command(const std::filesystem::path& folder) {
  listen_for_interrupts();
  const DrawnResults results = draw_waiting_pictures(folder, draw_in_child);
  if (!results.failure.empty()) {
    tell(fmt::format("crownproof: {}\n", results.failure));
    return exit_code::internal;
  }
  print(fmt::format("All pictures of '{}' are drawn.\n", folder.string()));
  return exit_code::done;
}

}  // namespace crownproof
