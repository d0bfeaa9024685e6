// A mistake in what a person wrote: one sentence, the place, the person's own line and a caret under it.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include "trade/place.h"

namespace heatwork::trade {

/// `file:line:column: sentence`, then the line and a caret. A place without a source gives the sentence alone; a long line is cut.
[[nodiscard]] std::string located(const Place& place, std::string_view sentence);

/// Thrown by every reader of this room, and by whoever finds physical nonsense in what was read. what() is the located text.
class Mistake : public std::runtime_error {
 public:
  Mistake(Place where, const std::string& what_is_wrong);
  [[nodiscard]] const Place& place() const { return place_; }
  /// The sentence without place, line and caret.
  [[nodiscard]] const std::string& sentence() const { return sentence_; }

 private:
  Place place_;
  std::string sentence_;
};

/// Text fit for one line of a message: control characters as '?', cut after `most` letters.
[[nodiscard]] std::string for_message(std::string_view text, std::size_t most = 60);

}  // namespace heatwork::trade
