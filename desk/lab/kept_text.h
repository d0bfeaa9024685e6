// The text of a file of the lab as it is kept: read whole for its mistakes, written with canonical values.
#pragma once

#include <memory>
#include <string>

#include "desk/rehearse_files.h"
#include "trade/noun.h"
#include "trade/reader.h"

namespace heatwork::desk {

struct KeptText {
  trade::Noun noun = trade::Noun::program;
  std::string name, label, note;
  std::string body;  ///< as trade::write_noun writes it
};

/// A noun as a file of the lab or the store gives it. Errors: trade::Mistake, located.
template <class T>
T read_kept(const std::shared_ptr<const trade::Source>& source) {
  trade::ReadingContext context;
  context.ambient_of_altitude = ambient_of_altitude;
  return trade::read_noun<T>(source, context);
}

/// Errors: trade::Mistake, located.
KeptText kept_text(const std::shared_ptr<const trade::Source>& source);

}  // namespace heatwork::desk
