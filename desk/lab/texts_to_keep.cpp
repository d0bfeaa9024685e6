#include "desk/lab/texts_to_keep.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <utility>

#include "desk/lab/kept_text.h"
#include "desk/lab/store_shelf.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

bool is_shipped(const trade::TextUsed& text) {
  return text.source->name.starts_with("shipped:");
}

/// Where it was found, without the folders of this machine.
std::string from_of(const trade::TextUsed& text) {
  constexpr std::string_view shipped = "shipped:";
  if (is_shipped(text)) return fmt::format("{} {}", shipped, text.source->name.substr(shipped.size()));
  return fmt::format("beside: {}", std::filesystem::path(text.source->name).filename().string());
}

/// What became of a firing of the past is no matter here.
bool says_the_same(const trade::TextUsed& text, const KeptText& kept, const records::Document& stands) {
  if (kept.noun != trade::Noun::firing) return kept.body == stands.body;
  return text_without_record(read_kept<trade::Firing>(text.source)) == text_without_record(firing_of(stands));
}

class Taking {
 public:
  Taking(records::Store& store, const trade::TextUsed& text, TextsToKeep& into) : store_(store), text_(text), out_(into) {}

  void take_typed(int from, const std::string& reason) {
    const KeptText kept = kept_text(text_.source);
    const auto stands = store_.find(text_.kind, text_.name);
    if (!stands) return add(kept);
    if (kept.body == stands->body) return stood_for(kept_source(*stands), stands->version);
    records::NewVersion next;
    next.kind = text_.kind;
    next.id = text_.name;
    next.after = from > 0 ? from : stands->version;
    next.body = kept.body;
    next.action = "changed";
    next.reason = reason;
    out_.documents.push_back(std::move(next));
    stood_for(kept_source({text_.kind, text_.name, stands->version + 1, kept.body, "", ""}), stands->version + 1);
  }

  void take() {
    if (text_.version > 0) return stood_for(text_.source, text_.version);
    if (is_shipped(text_) || !trade::noun_of(text_.kind)) return snapshot();
    const KeptText kept = kept_text(text_.source);
    const auto stands = store_.find(text_.kind, text_.name);
    if (!stands) return add(kept);
    if (says_the_same(text_, kept, *stands)) return stood_for(kept_source(*stands), stands->version);
    out_.differ.push_back(
        fmt::format("{} {} beside the file is another than version {} in the store; the one beside was used, and is kept "
                    "with this rehearsal alone.",
                    text_.kind, text_.name, stands->version));
    snapshot();
  }

 private:
  using SourceUsed = std::shared_ptr<const trade::Source>;

  void stood_for(SourceUsed source, int version) {
    out_.used.push_back({{text_.kind, text_.name, version, "", {}}, ""});
    out_.texts.push_back({text_.kind, text_.name, std::move(source), version});
  }

  void add(const KeptText& kept) {
    records::NewVersion version;
    version.kind = text_.kind;
    version.id = text_.name;
    version.body = kept.body;
    version.typed = text_.source->text;
    version.action = "added";
    out_.documents.push_back(std::move(version));
    out_.added.push_back(fmt::format("{} {}", text_.kind, text_.name));
    stood_for(kept_source({text_.kind, text_.name, 1, kept.body, "", ""}), 1);
  }

  void snapshot() {
    const std::string hash = trade::blake2b_256(text_.source->text);
    out_.used.push_back({{text_.kind, text_.name, 0, hash, {}}, from_of(text_)});
    // Without the folders of this machine, so that the same firing gives the same bytes elsewhere.
    out_.texts.push_back({text_.kind, text_.name, trade::source_of(from_of(text_), text_.source->text), 0});
    const auto is_it = [&](const auto& each) { return each.kind == snapshot_kind && each.id == hash; };
    if (std::any_of(out_.documents.begin(), out_.documents.end(), is_it)) return;
    records::NewVersion version;
    version.kind = snapshot_kind;
    version.id = hash;
    version.body = text_.source->text;
    version.action = "added";
    version.once = true;
    out_.documents.push_back(std::move(version));
  }

  records::Store& store_;
  const trade::TextUsed& text_;
  TextsToKeep& out_;
};

}  // namespace

void take_text(records::Store& store, const trade::TextUsed& text, TextsToKeep& into) {
  Taking(store, text, into).take();
}

void take_typed(records::Store& store, const trade::TextUsed& text, int from, const std::string& reason, TextsToKeep& into) {
  Taking(store, text, into).take_typed(from, reason);
}

trade::ResolvedFiring with_kept_texts(records::Store& store, const RehearsedAt& at, const trade::Firing& firing, const TextsToKeep& texts,
                                      const trade::ResolvedFiring& found) {
  trade::Library library(ambient_of_altitude);
  library.add(shelf_of_texts(texts.texts));
  trade::ResolvedFiring exact = library.resolve(firing, fired_before(store));
  know_furnaces_by(store, at, texts.texts, exact);
  exact.came_from = found.came_from;
  exact.furnace_known.said = found.furnace_known.said;
  return exact;
}

}  // namespace heatwork::desk
