// What a lab keeps, named as one asks for it: NAME, or NAME@VERSION.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "records/store.h"
#include "trade/noun.h"

namespace heatwork::desk {

struct AskedVersion {
  std::string name;
  std::optional<int> version;  ///< absent: the newest
};
/// "morning" or "morning@3". Errors: Failure bad_value.
AskedVersion read_asked_version(trade::Noun noun, const std::string& typed);

/// "program morning"
std::string titled(trade::Noun noun, const std::string& name);

/// The kept name of that kind that is nearest to a typed one, looked for among the first 5000; empty: none is near.
std::string near_kept_name(records::Store& store, std::string_view kind, const std::string& typed);

/// "The store keeps no lot "vener"; did you mean "veneer"?", or, where no name is near, what to do.
std::string not_kept(records::Store& store, std::string_view kind, const std::string& name, std::string_view what_to_do);

/// Errors: Failure unknown_name, with the near miss or the versions there are.
records::Document kept_document(records::Store& store, trade::Noun noun, const AskedVersion& asked);
/// The newest by its bare name. Errors: as above; bad_value where a version is named.
records::Document newest_document(records::Store& store, trade::Noun noun, const std::string& name);

/// Why a document is locked; nothing where it is not.
std::optional<std::string> locked_because(records::Store& store, std::string_view kind, const std::string& name);

}  // namespace heatwork::desk
