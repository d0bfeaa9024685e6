#include "desk/lab/values_of.h"

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "desk/lab/kept_text.h"
#include "desk/lab/store_shelf.h"
#include "trade/keyed_values.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

using trade::KeyedValue;

std::vector<KeyedValue> values_in(trade::Noun noun, const std::shared_ptr<const trade::Source>& source) {
  return trade::with_type_of(noun, [&]<class T>(std::type_identity<T>) { return trade::keyed_values(read_kept<T>(source)); });
}

/// As typed by key, with the canonical text each stood for then; a text that later versions of the reader refuse tells nothing.
std::map<std::string, KeyedValue> typed_values(trade::Noun noun, const records::Document& document) {
  std::map<std::string, KeyedValue> typed;
  if (document.typed.empty()) return typed;
  try {
    for (auto& value : values_in(noun, trade::source_of("as typed", document.typed))) typed.emplace(value.key, std::move(value));
  } catch (const trade::Mistake&) {
    typed.clear();
  }
  return typed;
}

}  // namespace

JsonList values_of(trade::Noun noun, const records::Document& document) {
  const auto typed = typed_values(noun, document);
  JsonList list;
  for (const KeyedValue& value : values_in(noun, kept_source(document))) {
    const auto found = typed.find(value.key);
    const bool same = found != typed.end() && found->second.text == value.text;
    list.push_back(JsonObject{{"key", value.key},
                              {"typed", same ? found->second.typed : value.text},
                              {"text", value.text},
                              {"si", value.si ? Json(*value.si) : Json()}});
  }
  return list;
}

}  // namespace heatwork::desk
