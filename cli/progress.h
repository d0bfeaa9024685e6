// How far long work has come, on a terminal only; nothing is shown of work that is quickly done.
#pragma once

#include <chrono>
#include <cstddef>
#include <string>

namespace heatwork::cli {

class Progress {
 public:
  explicit Progress(std::string what);
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  /// Takes its line away again.
  ~Progress();

  void at(std::size_t done, std::size_t all);

 private:
  using Clock = std::chrono::steady_clock;
  std::string what_;
  bool terminal_;
  bool shown_ = false;
  Clock::time_point next_;
};

}  // namespace heatwork::cli
