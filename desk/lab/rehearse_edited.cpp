#include "desk/lab/rehearse_edited.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <stdexcept>
#include <utility>

#include "desk/errors.h"
#include "desk/lab/check_draft.h"
#include "desk/lab/furnace_in_lab.h"
#include "desk/lab/kept_firing.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/rehearse_in_lab.h"
#include "desk/lab/store_shelf.h"
#include "trade/library.h"
#include "trade/mistake.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

using trade::Found;
using trade::Noun;
using SourcePointer = std::shared_ptr<const trade::Source>;

/// One document that was typed over.
struct Typed {
  Noun noun = Noun::program;
  std::string name;
  std::string of;  ///< as it was asked
  std::vector<trade::Edit> edits;
  int from = 0;
  SourcePointer source;
};

/// The names of the lab, some of their texts with what was typed over them.
class TypedShelf : public trade::Shelf {
 public:
  TypedShelf(std::unique_ptr<trade::Shelf> under, const std::vector<Typed>& typed) : under_(std::move(under)), typed_(typed) {}

  [[nodiscard]] std::vector<Found> find(Noun noun, std::string_view name) const override {
    for (const Typed& each : typed_)
      if (each.source && each.noun == noun && each.name == name) return {{each.source, "as typed", 0}};
    return under_->find(noun, name);
  }
  [[nodiscard]] std::vector<std::string> names(Noun noun) const override {
    std::vector<std::string> all = under_->names(noun);
    for (const Typed& each : typed_)
      if (each.source && each.noun == noun) all.push_back(each.name);
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
  }
  [[nodiscard]] std::string_view in_words() const override { return under_->in_words(); }

 private:
  std::unique_ptr<trade::Shelf> under_;
  const std::vector<Typed>& typed_;
};

/// The names of a firing that was started stand for the texts it was started with; all others for the newest.
class StartedShelf : public trade::Shelf {
 public:
  StartedShelf(std::vector<trade::TextUsed> texts, records::Store& store)
      : started_(shelf_of_texts(std::move(texts))), store_(store_shelf(store)) {}
  [[nodiscard]] std::vector<Found> find(Noun noun, std::string_view name) const override {
    auto found = started_->find(noun, name);
    return found.empty() ? store_->find(noun, name) : found;
  }
  [[nodiscard]] std::vector<std::string> names(Noun noun) const override {
    const auto of_firing = started_->names(noun);
    return noun == Noun::tray && !of_firing.empty() ? of_firing : store_->names(noun);
  }
  [[nodiscard]] std::string_view in_words() const override { return "in the store"; }

 private:
  std::unique_ptr<trade::Shelf> started_, store_;
};

class Resolving {
 public:
  Resolving(const EditedFiring& asked, const StorePlace& place, records::Store& store) : asked_(asked), place_(place), store_(store) {}

  ResolvedEdit resolve() {
    read_base();
    if (!take_firing()) return std::move(out_);
    take_documents();
    if (!out_.mistakes.empty()) return std::move(out_);
    trade::Library library(ambient_of_altitude);
    library.add(std::make_unique<TypedShelf>(under(), typed_));
    library.add(trade::shipped_shelf());
    try {
      out_.request = library.resolve(firing_, fired_before(store_));
      know(*out_.request);
    } catch (const trade::Mistake& mistake) {
      out_.mistakes.push_back(told(mistake));
    }
    for (const Typed& each : typed_)
      out_.changed.push_back({fmt::format("{} {}", trade::word(each.noun), each.name), each.edits, each.from});
    return std::move(out_);
  }

 private:
  /// The firing as it stands, with the texts it was started with where it was.
  void read_base() {
    if (asked_.firing.empty()) return;
    firing_ = kept_or_started();
    firing_text_ = trade::write_noun(firing_);
  }

  /// The furnace as its checks know it; what was typed over it stands.
  void know(trade::ResolvedFiring& found) {
    const RehearsedAt at = rehearsed_at(place_);
    if (started_)
      know_furnaces_by(store_, at, base_.used, found, furnace_typed_);
    else
      know_furnaces(store_, at, found, furnace_typed_);
  }

  trade::Firing kept_or_started() {
    auto [name, version] = read_asked_version(Noun::firing, asked_.firing);
    for (const TypedOver& each : asked_.typed)
      if (each.of == "firing" && each.from > 0 && !version) version = each.from;
    const auto document = store_.find(trade::word(Noun::firing), name, version);
    if (!document) return found_in_lab(asked_.firing, place_, &store_).firing;  // says what there is
    out_.firing_from = document->version;
    trade::Firing firing = firing_of(*document);
    started_ = was_started(firing);
    if (started_) base_ = as_started(store_, firing, place_.zone);
    return firing;
  }

  [[nodiscard]] std::unique_ptr<trade::Shelf> under() const {
    if (started_) return std::make_unique<StartedShelf>(base_.used, store_);
    return store_shelf(store_);
  }

  bool take_firing() {
    std::vector<trade::Edit> edits = asked_.fresh;
    for (const TypedOver& each : asked_.typed)
      if (each.of == "firing") edits.insert(edits.end(), each.edits.begin(), each.edits.end());
    if (edits.empty()) return true;
    const std::string name = asked_.firing.empty() ? "new-firing" : firing_.name;
    const auto text = edited(Noun::firing, firing_text_, name, edits, "firing");
    if (!text) return false;
    firing_ = read_kept<trade::Firing>(trade::source_of(fmt::format("firing {} as typed", name), *text));
    return true;
  }

  /// The text with the edits, in canonical values as it would be kept; nothing where it has mistakes, which are taken down.
  std::optional<std::string> edited(Noun noun, const std::string& before, const std::string& name, const std::vector<trade::Edit>& edits,
                                    const std::string& of) {
    try {
      const std::string text = trade::with_type_of(noun, [&]<class T>(std::type_identity<T>) {
        return before.empty() ? trade::new_text<T>(name, edits) : trade::edited_text(read_kept<T>(trade::source_of(name, before)), edits);
      });
      return kept_text(trade::source_of(fmt::format("{} as typed", of), text)).body;
    } catch (const trade::Mistake& first) {
      const std::size_t stood = out_.mistakes.size();
      for (const DraftMistake& each : mistakes_of_edits(noun, before, name, edits)) out_.mistakes.push_back({of, each.key, each.sentence});
      if (out_.mistakes.size() == stood) out_.mistakes.push_back({of, "", first.sentence()});
      return std::nullopt;
    }
  }

  /// Kind and name of a document by what it was called. Errors: Failure bad_value.
  [[nodiscard]] std::pair<Noun, std::string> document_of(const std::string& of) const {
    if (of == "program") return {Noun::program, firing_.program.value};
    if (of == "furnace") return {Noun::furnace, firing_.furnace.value};
    if (of == "tray") return {Noun::tray, firing_.tray.value};
    if (of == "instruction" && firing_.instruction) return {Noun::instruction, firing_.instruction->value};
    const auto blank = of.rfind(' ');
    const auto noun = blank == std::string::npos ? std::nullopt : trade::noun_of(of.substr(0, blank));
    if (!noun || *noun == Noun::firing)
      throw Failure(ErrorWord::bad_value,
                    fmt::format("\"{}\" is no document of a firing; give firing, program, furnace, tray, instruction, or kind and name as "
                                "in \"piece crown-16\".",
                                trade::for_message(of)));
    return {*noun, of.substr(blank + 1)};
  }

  void take_documents() {
    trade::Library library(ambient_of_altitude);
    library.add(under());
    library.add(trade::shipped_shelf());
    std::vector<Typed> typed;
    for (const TypedOver& each : asked_.typed) {
      if (each.of == "firing" || each.edits.empty()) continue;
      auto [noun, name] = document_of(each.of);
      const auto same = std::find_if(typed.begin(), typed.end(),
                                     [&, n = noun, &called = name](const Typed& one) { return one.noun == n && one.name == called; });
      if (same != typed.end())
        throw Failure(ErrorWord::bad_value, fmt::format("\"{}\" is given twice; give it once.", trade::for_message(each.of)));
      typed.push_back({noun, name, each.of, each.edits, each.from, nullptr});
    }
    for (Typed& each : typed) {
      try {
        const std::string before = text_typed_over(each, library);
        const auto text = edited(each.noun, before, each.name, each.edits, each.of);
        if (!text) continue;
        if (each.noun == Noun::furnace) furnace_typed_ = FurnaceTyped{each.name, each.from};
        each.source = trade::source_of(fmt::format("{} {} as typed", trade::word(each.noun), each.name), *text);
      } catch (const trade::Mistake& mistake) {
        out_.mistakes.push_back({each.of, "", mistake.sentence()});
      }
    }
    typed_ = std::move(typed);
    for (Typed& each : typed_)
      if (each.noun == Noun::program && each.source && each.name == firing_.program.value) name_program(each, library);
  }

  /// The text the edits lie over; `from` becomes its version.
  std::string text_typed_over(Typed& typed, const trade::Library& library) const {
    const Found found = typed.from > 0 ? Found{} : library.find(typed.noun, typed.name, {});
    if (found.source) {
      typed.from = found.version;
      return kept_text(found.source).body;
    }
    return kept_document(store_, typed.noun, {typed.name, typed.from}).body;
  }

  /// A program that the maker's sheet names stays the maker's: what was typed over it goes by a name of its own.
  void name_program(Typed& typed, const trade::Library& library) {
    std::string name = asked_.program_name;
    if (name.empty()) {
      if (!firing_.instruction) return;
      try {
        if (library.get<trade::Instruction>(Noun::instruction, firing_.instruction->value, {}).program.value != typed.name) return;
      } catch (const trade::Mistake&) {
        return;  // told where all names are found
      }
      constexpr std::string_view ending = "-changed";
      name = typed.name.substr(0, 60 - ending.size()) + std::string(ending);
    }
    if (name == typed.name) return;
    auto program = read_kept<trade::Program>(typed.source);
    program.name = name;
    typed.source = trade::source_of(fmt::format("program {} as typed", name), trade::write_noun(program));
    typed.name = name;
    typed.from = 0;
    firing_.program.value = name;
  }

  /// "tray", "piece[2].piece": what the line of a place sets.
  static std::string key_of_line(const trade::Place& place) {
    const std::string& text = place.source->text;
    std::string table, key;
    std::size_t at = 0, line = 1;
    int pieces = 0;
    while (at < text.size() && line <= static_cast<std::size_t>(place.line)) {
      const std::size_t end = std::min(text.find('\n', at), text.size());
      const std::string one = text.substr(at, end - at);
      if (one.rfind("[[firing.piece]]", 0) == 0) table = fmt::format("piece[{}].", ++pieces);
      if (one.rfind("[firing.", 0) == 0) table = one.substr(8, one.find(']') - 8) + ".";
      key = one.substr(0, one.find_first_of(" ="));
      at = end + 1;
      ++line;
    }
    return key.empty() || key.front() == '[' ? "" : table + key;
  }

  /// Where a name or a value is wrong that only shows among all.
  [[nodiscard]] EditMistake told(const trade::Mistake& mistake) const {
    for (const Typed& each : typed_)
      if (each.source && each.source == mistake.place().source) return {each.of, "", mistake.sentence()};
    // A name in the firing that is nowhere: its line begins with the key.
    const trade::Place& place = mistake.place();
    if (place.source == nullptr || place.source != firing_.place.source) return {"firing", "", mistake.sentence()};
    return {"firing", key_of_line(place), mistake.sentence()};
  }

  const EditedFiring& asked_;
  const StorePlace& place_;
  records::Store& store_;
  trade::ResolvedFiring base_;
  trade::Firing firing_;
  std::string firing_text_;
  bool started_ = false;
  std::optional<FurnaceTyped> furnace_typed_;
  std::vector<Typed> typed_;
  ResolvedEdit out_;
};

}  // namespace

ResolvedEdit resolve_edited(const EditedFiring& asked, const StorePlace& place, records::Store& store) {
  return Resolving(asked, place, store).resolve();
}

EditedRehearsal rehearse_edited(const EditedFiring& asked, const StorePlace& place, records::Store& store, const HowRehearsed& how) {
  ResolvedEdit resolved = resolve_edited(asked, place, store);
  EditedRehearsal out;
  out.mistakes = std::move(resolved.mistakes);
  if (!resolved.request) return out;
  const auto limits = asked.firing.empty() ? nullptr : limits_kept_with(store, resolved.request->firing.name);
  try {
    out.rehearsed = rehearse_as_asked(std::move(*resolved.request), limits, how);
  } catch (const trade::Mistake& mistake) {
    out.mistakes.push_back({"firing", "", mistake.sentence()});
  } catch (const std::domain_error& why) {
    out.mistakes.push_back({"firing", "", why.what()});
  }
  return out;
}

JsonList as_json(const std::vector<EditMistake>& mistakes) {
  JsonList list;
  for (const EditMistake& each : mistakes) list.push_back(JsonObject{{"of", each.of}, {"key", each.key}, {"sentence", each.sentence}});
  return list;
}

}  // namespace heatwork::desk
