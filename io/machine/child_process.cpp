// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/machine/child_process.hpp"

#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <system_error>
#include <thread>

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <spawn.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

namespace crownproof {
namespace {

using Clock = std::chrono::steady_clock;

[[noreturn]] void fail(int error_number) {
  throw std::system_error(error_number, std::generic_category());
}

/// Both ends of a pipe, closed in the end.
class Pipe {
 public:
  Pipe() {
    if (::pipe2(ends_.data(), O_CLOEXEC) != 0) fail(errno);
  }
  ~Pipe() {
    close_writing();
    ::close(ends_[0]);
  }
  Pipe(const Pipe&) = delete;
  Pipe& operator=(const Pipe&) = delete;
  int reading() const { return ends_[0]; }
  int writing() const { return ends_[1]; }
  void close_writing() {
    if (ends_[1] >= 0) ::close(ends_[1]);
    ends_[1] = -1;
  }

 private:
  std::array<int, 2> ends_{-1, -1};
};

/// What posix_spawn does to the child's streams.
class Streams {
 public:
  explicit Streams(int said) {
    ::posix_spawn_file_actions_init(&actions_);
    ::posix_spawn_file_actions_adddup2(&actions_, said, STDOUT_FILENO);
    ::posix_spawn_file_actions_adddup2(&actions_, said, STDERR_FILENO);
    ::posix_spawn_file_actions_addopen(&actions_, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  }
  ~Streams() { ::posix_spawn_file_actions_destroy(&actions_); }
  Streams(const Streams&) = delete;
  Streams& operator=(const Streams&) = delete;
  const posix_spawn_file_actions_t* actions() const { return &actions_; }

 private:
  posix_spawn_file_actions_t actions_{};
};

/// A child that is killed, if it still runs, and waited for in the end.
class Child {
 public:
  Child(const std::vector<std::string>& command, int said) {
    const Streams streams(said);
    std::vector<char*> arguments;
    for (const std::string& word : command) arguments.push_back(const_cast<char*>(word.c_str()));
    arguments.push_back(nullptr);
    const int error =
        ::posix_spawn(&id_, arguments[0], streams.actions(), nullptr, arguments.data(), environ);
    if (error != 0) fail(error);
  }
  ~Child() { kill(); }
  Child(const Child&) = delete;
  Child& operator=(const Child&) = delete;

  bool has_ended() {
    if (!ended_) ended_ = ::waitpid(id_, &status_, WNOHANG) == id_;
    return ended_;
  }
  void kill() {
    if (has_ended()) return;
    ::kill(id_, SIGKILL);
    while (::waitpid(id_, &status_, 0) < 0 && errno == EINTR) continue;
    ended_ = true;
  }
  int status() const { return status_; }

 private:
  pid_t id_ = -1;
  int status_ = 0;
  bool ended_ = false;
};

/// Takes what can be read within a tenth of a second; false at the end of the stream.
bool read_some(int descriptor, std::string& said) {
  pollfd readable{descriptor, POLLIN, 0};
  if (::poll(&readable, 1, 100) <= 0) return true;
  std::array<char, 4096> bytes{};
  const ssize_t n = ::read(descriptor, bytes.data(), bytes.size());
  if (n > 0) said.append(bytes.data(), static_cast<std::size_t>(n));
  return n > 0 || (n < 0 && errno == EINTR);
}

std::string signal_words(int status) {
  const char* const name = ::strsignal(WTERMSIG(status));
  return fmt::format("it was ended by the signal '{}'", name != nullptr ? name : "unknown");
}

}  // namespace

ChildResult run_child(const std::vector<std::string>& command, std::chrono::milliseconds longest_silence,
                      const std::function<bool()>& stop) {
  Pipe pipe;
  Child child(command, pipe.writing());
  pipe.close_writing();
  ChildResult result;
  bool open = true;
  for (auto heard = Clock::now(); result.ended_by.empty() && (open || !child.has_ended());) {
    const std::size_t before = result.said.size();
    if (open)
      open = read_some(pipe.reading(), result.said);
    else
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
    if (result.said.size() > before) heard = Clock::now();
    if (stop && stop()) result.ended_by = "it was interrupted";
    if (Clock::now() - heard > longest_silence)
      result.ended_by = fmt::format("it hung and was stopped after {:.0f} s",
                                    std::chrono::duration<double>(longest_silence).count());
  }
  const bool by_itself = child.has_ended();
  child.kill();
  if (by_itself && WIFEXITED(child.status()))
    result.exit_code = WEXITSTATUS(child.status());
  else if (by_itself)
    result.ended_by = signal_words(child.status());
  return result;
}

void end_with_parent() {
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
}

}  // namespace crownproof
