#include "cli/progress.h"

#include <fmt/core.h>

#include <utility>

#include "cli/output.h"

namespace heatwork::cli {
namespace {

constexpr std::chrono::milliseconds until_first{500};
constexpr std::chrono::milliseconds between{100};
constexpr std::size_t bar_width = 30;

}  // namespace

Progress::Progress(std::string what) : what_(std::move(what)), terminal_(note_is_terminal()), next_(Clock::now() + until_first) {}

Progress::~Progress() {
  if (shown_) put_note("\r\033[K");
}

void Progress::at(std::size_t done, std::size_t all) {
  if (!terminal_ || all == 0 || Clock::now() < next_) return;
  next_ = Clock::now() + between;
  shown_ = true;
  const std::size_t full = bar_width * done / all;
  put_note(fmt::format("\r{} [{}{}] {} of {}\033[K", what_, std::string(full, '#'), std::string(bar_width - full, '.'), done, all));
}

}  // namespace heatwork::cli
