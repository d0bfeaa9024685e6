#include "desk/lab/kept_change.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <optional>
#include <utility>

#include "desk/errors.h"
#include "desk/files.h"
#include "desk/lab/keep.h"
#include "desk/lab/kept_conflict.h"
#include "desk/lab/kept_difference.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/store_shelf.h"
#include "desk/lab/typed_edits.h"
#include "desk/lab/values_of.h"
#include "records/store_error.h"
#include "trade/edit.h"
#include "trade/library.h"
#include "trade/lock_name.h"
#include "trade/mistake.h"
#include "trade/records.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

using trade::Noun;
using SourcePointer = std::shared_ptr<const trade::Source>;

KeptText read_as(Noun noun, const SourcePointer& source) {
  KeptText kept = kept_text(source);
  if (kept.noun != noun)
    throw Failure(ErrorWord::bad_value, fmt::format("{} holds {}; \"heatwork {}\" keeps {}.", source->name, trade::with_article(kept.noun),
                                                    trade::file_word(noun), trade::with_article(noun)));
  return kept;
}

/// A new noun of this kind on its way into the store, with the text as typed.
struct New {
  KeptText kept;
  std::string typed;
};

std::vector<New> new_ones(Noun noun, const AddWords& words) {
  const auto edits = edits_of(words.set, {});
  if (!words.text.empty()) return {{read_as(noun, trade::source_of("the text", words.text)), words.text}};
  const bool files = std::all_of(words.what.begin(), words.what.end(), [](const std::string& each) { return each.ends_with(".toml"); });
  if (!files && words.what.size() != 1)
    throw Failure(ErrorWord::bad_value, "Give files that end in .toml, or one new name with its values.");
  if (files && !edits.empty())
    throw Failure(ErrorWord::bad_value, "Single values go with a new name, not with files; write the value into the file.");
  std::vector<New> all;
  if (files) {
    for (const std::string& file : words.what) {
      const auto source = trade::source_from_file(file);
      all.push_back({read_as(noun, source), source->text});
    }
    return all;
  }
  const std::string& name = words.what.front();
  const std::string text = trade::with_type_of(noun, [&]<class T>(std::type_identity<T>) { return trade::new_text<T>(name, edits); });
  all.push_back({read_as(noun, trade::source_of(titled(noun, trade::for_message(name)), text)), text});
  return all;
}

records::NewVersion version_of(const KeptText& kept, int after, std::string typed, const std::string& action, const std::string& reason) {
  records::NewVersion version;
  version.kind = trade::word(kept.noun);
  version.id = kept.name;
  version.after = after;
  version.body = kept.body;
  if (typed != kept.body) version.typed = std::move(typed);
  version.action = action;
  version.reason = reason;
  return version;
}

std::string kept_lines(const records::Kept& kept) {
  std::string text;
  for (const auto& document : kept.documents)
    text += care_line("Kept", fmt::format("{} {}, version {}", document.kind, document.id, document.version));
  return text + care_line("Head hash", kept.head);
}

JsonObject kept_as_json(const records::Kept& kept) {
  JsonList documents;
  for (const auto& document : kept.documents)
    documents.push_back(JsonObject{{"kind", document.kind}, {"name", document.id}, {"version", document.version}, {"hash", document.hash}});
  return {{"format", 1}, {"kept", documents}, {"head", kept.head}};
}

std::string edited(Noun noun, const records::Document& base, const std::vector<trade::Edit>& edits) {
  return trade::with_type_of(noun,
                             [&]<class T>(std::type_identity<T>) { return trade::edited_text(read_kept<T>(kept_source(base)), edits); });
}

/// The changed text with what was typed before of all that the edits leave alone.
std::string as_typed(Noun noun, const records::Document& base, const std::vector<trade::Edit>& edits, const New& made) {
  std::vector<trade::Edit> all = edits;
  for (trade::Edit& before : typed_otherwise(noun, base)) {
    const bool touched = std::any_of(edits.begin(), edits.end(), [&](const trade::Edit& edit) {
      return before.key == edit.key || before.key.starts_with(edit.key + ".") || before.key.starts_with(edit.key + "[");
    });
    if (!touched) all.push_back(std::move(before));
  }
  try {
    const std::string text = edited(noun, base, all);
    return kept_text(trade::source_of("as typed", text)).body == made.kept.body ? text : made.typed;
  } catch (const trade::Mistake&) {
    return made.typed;
  }
}

/// The text a change comes to, read whole; the text as typed where a file was given.
New changed(Noun noun, const ChangeWords& words, const records::Document& base) {
  const auto edits = edits_of(words.set, words.unset);
  const bool whole = !words.file.empty() || !words.text.empty();
  if (whole != edits.empty()) throw Failure(ErrorWord::bad_value, "Say what changes: a whole text, or values to set and keys to unset.");
  if (whole) {
    const auto source = words.file.empty() ? trade::source_of("the text", words.text) : trade::source_from_file(words.file);
    New made{read_as(noun, source), source->text};
    if (made.kept.name != base.id)
      throw Failure(ErrorWord::bad_value, fmt::format("{} holds {}, not {}; a name stays what it is, another one is added.", source->name,
                                                      titled(noun, made.kept.name), titled(noun, base.id)));
    return made;
  }
  const std::string text = edited(noun, base, edits);
  New made{read_as(noun, trade::source_of(fmt::format("{} with these changes", titled(noun, base.id)), text)), text};
  if (made.kept.name != base.id) throw Failure(ErrorWord::bad_value, "A name stays what it is: add one under the new name.");
  made.typed = as_typed(noun, base, edits, made);
  return made;
}

}  // namespace

CareAnswer add_kept(const AskedLab& asked, Noun noun, const AddWords& words) {
  const std::vector<New> all = new_ones(noun, words);
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened_to_keep(place);
    records::Change change;
    for (const New& each : all) {
      if (const auto stands = store.find(trade::word(noun), each.kept.name))
        throw ChangedMeanwhile({std::string(trade::word(noun)), each.kept.name, 0, stands->version},
                               fmt::format("{} is kept already, in version {}; nothing was kept. \"heatwork {} change {}\" makes "
                                           "its next version.",
                                           titled(noun, each.kept.name), stands->version, trade::file_word(noun), each.kept.name));
      change.documents.push_back(version_of(each.kept, 0, each.typed, "added", words.reason));
    }
    const records::Kept kept = keep(place, store, std::move(change));
    return CareAnswer{kept_lines(kept), kept_as_json(kept), false};
  });
}

CareAnswer change_kept(const AskedLab& asked, Noun noun, const ChangeWords& words) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    const records::Document newest = newest_document(store, noun, words.name);
    const records::Document base = words.from == 0 ? newest : kept_document(store, noun, {newest.id, words.from});
    New made = changed(noun, words, base);
    const auto changes = difference_of(noun, kept_source(base), trade::source_of("the next version", made.kept.body));
    if (made.kept.body == base.body)
      throw Failure(ErrorWord::bad_value,
                    fmt::format("That is what version {} of {} says already; nothing was kept.", base.version, titled(noun, base.id)));
    records::Change change;
    change.documents.push_back(version_of(made.kept, base.version, made.typed, "changed", words.reason));
    try {
      const records::Kept kept = keep(place, store, std::move(change));
      JsonObject json = kept_as_json(kept);
      json.push_back({"changes", as_json(changes)});
      return CareAnswer{as_lines(changes, 0) + kept_lines(kept), json, false};
    } catch (const ChangedMeanwhile& conflict) {
      refuse_conflict(store, conflict, made.kept.body);
    }
  });
}

CareAnswer set_lock(const AskedLab& asked, Noun noun, const std::string& name, bool locked, const std::string& reason) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    const records::Document document = newest_document(store, noun, name);
    if (noun == Noun::lock) throw Failure(ErrorWord::bad_value, "A lock itself is not locked.");
    const auto stands = locked_because(store, document.kind, document.id);
    if (stands.has_value() == locked)
      throw Failure(ErrorWord::bad_value, locked ? fmt::format("{} is locked already: {}.", titled(noun, document.id), *stands)
                                                 : fmt::format("{} is not locked.", titled(noun, document.id)));
    trade::Lock lock;
    lock.name = trade::lock_name(document.kind, document.id);
    lock.of_kind = document.kind;
    lock.of_name = document.id;
    lock.of_version = document.version;
    lock.locked = locked;
    lock.reason = reason;
    const KeptText kept_lock = kept_text(trade::source_of("lock " + lock.name, trade::write_noun(lock)));
    const auto before = store.find("lock", lock.name);
    records::Change change;
    change.documents.push_back(version_of(kept_lock, before ? before->version : 0, "", locked ? "locked" : "unlocked", reason));
    const records::Kept kept = keep(place, store, std::move(change));
    JsonObject json = kept_as_json(kept);
    json.push_back({"locked", locked});
    return CareAnswer{
        care_line(locked ? "Locked" : "Unlocked", fmt::format("{}, version {}", titled(noun, document.id), document.version)) +
            care_line("Head hash", kept.head),
        json, false};
  });
}

CareAnswer write_out_kept(const AskedLab& asked, Noun noun, const std::string& name, const std::string& file) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    const records::Document document = kept_document(store, noun, read_asked_version(noun, name));
    const std::string path = file.empty() ? fmt::format("{}-{}.toml", trade::file_word(noun), document.id) : file;
    std::error_code ignored;
    if (std::filesystem::exists(std::filesystem::symlink_status(path, ignored)))
      throw Failure(ErrorWord::already_there, fmt::format("Something stands at {} already; nothing was written over it.", path));
    write_whole(path, document.body);
    return CareAnswer{
        care_line("Written", fmt::format("{}, version {}, into {}", titled(noun, document.id), document.version, path)),
        JsonObject{{"format", 1}, {"kind", document.kind}, {"name", document.id}, {"version", document.version}, {"file", path}}, false};
  });
}

}  // namespace heatwork::desk
