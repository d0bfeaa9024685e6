#include "desk/lab/check_draft.h"

#include <fmt/format.h>

#include <utility>

#include "desk/columns.h"
#include "desk/errors.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/rehearse_in_lab.h"
#include "desk/lab/store_place.h"
#include "desk/lab/store_shelf.h"
#include "desk/lab/typed_edits.h"
#include "trade/library.h"
#include "trade/mistake.h"
#include "trade/reader.h"

namespace heatwork::desk {
namespace {

using trade::Edit;
using trade::Noun;

trade::ReadingContext as_kept() {
  trade::ReadingContext context;
  context.ambient_of_altitude = ambient_of_altitude;
  return context;
}

std::vector<DraftMistake> mistakes_of_text(Noun noun, const std::string& text) {
  std::vector<DraftMistake> mistakes;
  for (const auto& [key, mistake] : trade::all_mistakes(noun, trade::source_of("the draft", text), as_kept()))
    mistakes.push_back({key, mistake.sentence()});
  return mistakes;
}

/// The draft some edits make; they are tried one by one, so that each that has no place is told by its key.
class Draft {
 public:
  Draft(Noun noun, const std::string& base, const std::string& name) : noun_(noun), base_(base), name_(name) {}

  /// The sentence of the mistake, where these edits have no place together.
  std::optional<std::string> refuses(const std::vector<Edit>& edits) {
    try {
      text_ = trade::with_type_of(noun_, [&]<class T>(std::type_identity<T>) {
        return base_.empty() ? trade::new_text<T>(name_, edits) : trade::edited_text(read_kept<T>(trade::source_of("", base_)), edits);
      });
      return std::nullopt;
    } catch (const trade::Mistake& mistake) {
      return mistake.sentence();
    }
  }
  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  Noun noun_;
  const std::string& base_;
  const std::string& name_;
  std::string text_;
};

/// Takes what has a place, in as many rounds as it needs: the third of a list only has one after the second. What is left has none.
std::vector<DraftMistake> without_place(Draft& draft, std::vector<Edit>& edits) {
  std::vector<Edit> taken, left = std::move(edits);
  std::vector<DraftMistake> mistakes;
  for (bool more = true; more;) {
    more = false;
    mistakes.clear();
    std::vector<Edit> still;
    for (Edit& edit : left) {
      taken.push_back(edit);
      if (const auto sentence = draft.refuses(taken)) {
        taken.pop_back();
        mistakes.push_back({edit.key, *sentence});
        still.push_back(std::move(edit));
      } else {
        more = true;
      }
    }
    left = std::move(still);
    more = more && !left.empty();
  }
  edits = std::move(taken);
  return mistakes;
}

CareAnswer answer_of(Noun noun, const std::string& name, const std::optional<int>& newest, const std::vector<DraftMistake>& mistakes) {
  std::string text = mistakes.empty() ? "No mistake is seen; nothing was kept.\n" : "";
  JsonList list;
  for (const DraftMistake& each : mistakes) {
    text += wrapped(each.sentence, 2, 0);
    list.push_back(JsonObject{{"of", trade::word(noun)}, {"key", each.key}, {"sentence", each.sentence}});
  }
  return {text,
          JsonObject{{"format", 1},
                     {"kind", trade::word(noun)},
                     {"name", name},
                     {"newest", newest ? Json(*newest) : Json()},
                     {"mistakes", std::move(list)}},
          !mistakes.empty()};
}

/// The version that stands of a name, where a store stands.
std::optional<int> newest_of(const StorePlace& place, Noun noun, const std::string& name) {
  auto store = store_that_stands(place);
  if (!store || trade::wrong_name(name, 80)) return std::nullopt;
  const auto stands = store->find(trade::word(noun), name);
  return stands ? std::optional(stands->version) : std::nullopt;
}

}  // namespace

std::vector<DraftMistake> mistakes_of_edits(Noun noun, const std::string& base, const std::string& name, const std::vector<Edit>& edits) {
  Draft draft(noun, base, name);
  std::vector<DraftMistake> mistakes;
  std::vector<Edit> taken = edits;
  if (draft.refuses(taken)) mistakes = without_place(draft, taken);
  if (draft.refuses(taken)) return mistakes;
  for (auto& each : mistakes_of_text(noun, draft.text())) mistakes.push_back(std::move(each));
  return mistakes;
}

CareAnswer check_new(const AskedLab& asked, Noun noun, const AddWords& words) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    if (words.text.empty() && words.what.size() != 1)
      throw Failure(ErrorWord::bad_value, "Give the name of a new one with its values, or the text of a file.");
    std::string name;
    std::vector<DraftMistake> mistakes;
    if (words.text.empty()) {
      name = words.what.front();
      mistakes = mistakes_of_edits(noun, "", name, edits_of(words.set, {}));
    } else {
      mistakes = mistakes_of_text(noun, words.text);
      try {
        if (const auto heading = trade::heading_of(trade::source_of("the draft", words.text))) name = heading->name;
      } catch (const trade::Mistake&) {
        name.clear();  // said among the mistakes
      }
    }
    const auto newest = newest_of(place, noun, name);
    if (newest)
      mistakes.push_back(
          {"name", fmt::format("{} is kept already, in version {}; give this one a name of its own.", titled(noun, name), *newest)});
    return answer_of(noun, name, newest, mistakes);
  });
}

CareAnswer check_change(const AskedLab& asked, Noun noun, const ChangeWords& words) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    const records::Document newest = newest_document(store, noun, words.name);
    const records::Document base = words.from == 0 ? newest : kept_document(store, noun, {newest.id, words.from});
    const auto mistakes = words.text.empty() ? mistakes_of_edits(noun, base.body, base.id, edits_of(words.set, words.unset))
                                             : mistakes_of_text(noun, words.text);
    return answer_of(noun, base.id, newest.version, mistakes);
  });
}

}  // namespace heatwork::desk
