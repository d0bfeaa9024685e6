// The text of a file of the lab as it is kept: read whole for its mistakes, written with canonical values.
#pragma once

#include <memory>
#include <string>

#include "trade/noun.h"
#include "trade/reader.h"

namespace heatwork::desk {

struct KeptText {
  trade::Noun noun = trade::Noun::program;
  std::string name, label, note;
  std::string body;  ///< as trade::write_noun writes it
};

/// Errors: trade::Mistake, located.
KeptText kept_text(const std::shared_ptr<const trade::Source>& source);

}  // namespace heatwork::desk
