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

/// Each value with what was typed of it, where that still says the same.
std::vector<KeyedValue> values_as_typed(trade::Noun noun, const records::Document& document) {
  const auto typed = typed_values(noun, document);
  std::vector<KeyedValue> values = values_in(noun, kept_source(document));
  for (KeyedValue& value : values) {
    const auto found = typed.find(value.key);
    value.typed = found != typed.end() && found->second.text == value.text ? found->second.typed : value.text;
  }
  return values;
}

}  // namespace

JsonList values_of(trade::Noun noun, const records::Document& document) {
  JsonList list;
  for (const KeyedValue& value : values_as_typed(noun, document))
    list.push_back(
        JsonObject{{"key", value.key}, {"typed", value.typed}, {"text", value.text}, {"si", value.si ? Json(*value.si) : Json()}});
  return list;
}

std::vector<trade::Edit> typed_otherwise(trade::Noun noun, const records::Document& document) {
  std::vector<trade::Edit> edits;
  for (const KeyedValue& value : values_as_typed(noun, document))
    if (value.typed != value.text) edits.push_back({value.key, value.typed});
  return edits;
}

}  // namespace heatwork::desk
