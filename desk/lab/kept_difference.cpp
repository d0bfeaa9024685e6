#include "desk/lab/kept_difference.h"

#include "desk/columns.h"
#include "desk/lab/kept_text.h"

namespace heatwork::desk {

std::vector<trade::Difference> difference_of(trade::Noun noun, const std::shared_ptr<const trade::Source>& before,
                                             const std::shared_ptr<const trade::Source>& after) {
  return trade::with_type_of(noun,
                             [&]<class T>(std::type_identity<T>) { return trade::difference(read_kept<T>(before), read_kept<T>(after)); });
}

std::string as_lines(const std::vector<trade::Difference>& differences, std::size_t margin) {
  std::string text;
  for (const trade::Difference& each : differences) text += wrapped(trade::in_words(each), margin + 2, margin);
  return text;
}

JsonList as_json(const std::vector<trade::Difference>& differences) {
  JsonList list;
  for (const trade::Difference& each : differences) {
    const auto value = [](const std::string& text) { return text.empty() ? Json() : Json(text); };
    list.push_back(JsonObject{{"key", each.key},
                              {"where", each.where},
                              {"before", value(each.before)},
                              {"after", value(each.after)},
                              {"words", trade::in_words(each)}});
  }
  return list;
}

}  // namespace heatwork::desk
