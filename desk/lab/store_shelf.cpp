#include "desk/lab/store_shelf.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "desk/errors.h"
#include "desk/lab/furnace_in_lab.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/local_time.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

using trade::Found;
using trade::NameUsed;
using trade::Noun;

std::string named(std::string_view kind, std::string_view name, int version) {
  return fmt::format("{} {}@{}", kind, name, version);
}

Found found_in(const records::Document& document, std::string_view where) {
  auto source = kept_source(document);
  std::string place = fmt::format("{}: {}", where, source->name);
  return {std::move(source), std::move(place), document.version};
}

class StoreShelf : public trade::Shelf {
 public:
  explicit StoreShelf(records::Store& store) : store_(store) {}

  [[nodiscard]] std::vector<Found> find(Noun noun, std::string_view name) const override {
    const auto document = store_.find(trade::word(noun), name);
    if (!document) return {};
    return {found_in(*document, "store")};
  }

  [[nodiscard]] std::vector<std::string> names(Noun noun) const override {
    std::vector<std::string> all;
    records::HeadQuery query;
    query.kind = trade::word(noun);
    for (bool more = true; more; ++query.page) {
      const auto page = store_.heads(query);
      for (const auto& head : page.rows) all.push_back(head.id);
      more = static_cast<std::int64_t>(query.page) * records::rows_a_page < page.count;
    }
    std::sort(all.begin(), all.end());  // engines order letters each in its own way
    return all;
  }

  [[nodiscard]] std::string_view in_words() const override { return "in the store"; }

 private:
  records::Store& store_;
};

/// Only what a firing was started with.
class PinnedShelf : public trade::Shelf {
 public:
  PinnedShelf(records::Store& store, const trade::Firing& firing) : store_(store), firing_(firing.name), used_(firing.record->used) {}

  [[nodiscard]] std::vector<Found> find(Noun noun, std::string_view name) const override {
    for (const NameUsed& used : used_)
      if (used.kind == trade::word(noun) && used.name == name) return {text_of(used)};
    return {};
  }

  [[nodiscard]] std::vector<std::string> names(Noun noun) const override {
    std::vector<std::string> all;
    for (const NameUsed& used : used_)
      if (used.kind == trade::word(noun)) all.push_back(used.name);
    std::sort(all.begin(), all.end());
    return all;
  }

  [[nodiscard]] std::string_view in_words() const override { return "among what the firing was started with"; }

  [[nodiscard]] std::vector<trade::TextUsed> checks() const {
    std::vector<trade::TextUsed> all;
    for (const NameUsed& used : used_)
      if (used.kind == trade::word(Noun::check)) all.push_back({used.kind, used.name, text_of(used).source, used.version});
    return all;
  }

 private:
  [[nodiscard]] Found text_of(const NameUsed& used) const {
    const auto document = used.version > 0 ? store_.find(used.kind, used.name, used.version) : store_.find(snapshot_kind, used.snapshot);
    const std::string what = used.version > 0 ? named(used.kind, used.name, used.version) : fmt::format("snapshot {}", used.snapshot);
    if (!document)
      throw Failure(ErrorWord::store_damaged, fmt::format("Firing {} was started with {} for {} {}, which the store does not hold; \"store "
                                                          "verify\" tells more, restore a backup.",
                                                          firing_, what, used.kind, used.name));
    if (used.version > 0) return found_in(*document, "as it was fired");
    return {trade::source_of(fmt::format("{} {}", used.kind, used.name), document->body), fmt::format("as it was fired: {}", what), 0};
  }

  records::Store& store_;
  std::string firing_;
  std::vector<NameUsed> used_;
};

class TextShelf : public trade::Shelf {
 public:
  explicit TextShelf(std::vector<trade::TextUsed> texts) : texts_(std::move(texts)) {}

  [[nodiscard]] std::vector<Found> find(Noun noun, std::string_view name) const override {
    for (const auto& text : texts_)
      if (text.kind == trade::word(noun) && text.name == name) return {{text.source, text.source->name, text.version}};
    return {};
  }

  [[nodiscard]] std::vector<std::string> names(Noun noun) const override {
    std::vector<std::string> all;
    for (const auto& text : texts_)
      if (text.kind == trade::word(noun)) all.push_back(text.name);
    std::sort(all.begin(), all.end());
    return all;
  }

  [[nodiscard]] std::string_view in_words() const override { return "among the texts that were found"; }

 private:
  std::vector<trade::TextUsed> texts_;
};

}  // namespace

std::shared_ptr<const trade::Source> kept_source(const records::Document& document) {
  return trade::source_of(named(document.kind, document.id, document.version), document.body);
}

std::unique_ptr<trade::Shelf> shelf_of_texts(std::vector<trade::TextUsed> texts) {
  return std::make_unique<TextShelf>(std::move(texts));
}

std::unique_ptr<trade::Shelf> store_shelf(records::Store& store) {
  return std::make_unique<StoreShelf>(store);
}

trade::Firing firing_of(const records::Document& document) {
  return read_kept<trade::Firing>(kept_source(document));
}

std::string text_without_record(const trade::Firing& firing) {
  trade::Firing bare = firing;
  bare.record.reset();
  return trade::write_noun(bare);
}

bool was_started(const trade::Firing& firing) {
  return firing.record && !firing.record->used.empty();
}

bool same_texts_used(const trade::FiringRecord& one, const trade::FiringRecord& other) {
  return std::equal(one.used.begin(), one.used.end(), other.used.begin(), other.used.end(), [](const NameUsed& a, const NameUsed& b) {
    return a.kind == b.kind && a.name == b.name && a.version == b.version && a.snapshot == b.snapshot;
  });
}

trade::ResolvedFiring as_started(records::Store& store, const trade::Firing& firing, const std::string& zone) {
  trade::Library library(ambient_of_altitude);
  auto pinned = std::make_unique<PinnedShelf>(store, firing);
  const std::vector<trade::TextUsed> checks = pinned->checks();
  library.add(std::move(pinned));
  auto found = library.resolve(firing, [&store](const trade::Firing& earlier) -> std::optional<trade::ResolvedFiring> {
    if (!was_started(earlier)) return std::nullopt;
    return as_started(store, earlier);
  });
  if (!checks.empty()) know_furnaces_by(store, {utc_ms(firing.record->started), zone}, checks, found);
  return found;
}

trade::FiringOfThePast fired_before(records::Store& store) {
  return [&store](const trade::Firing& as_found) -> std::optional<trade::ResolvedFiring> {
    const auto document = store.find(trade::word(Noun::firing), as_found.name);
    if (!document) return std::nullopt;
    trade::Firing kept = firing_of(*document);
    kept.after.clear();
    if (!was_started(kept) || text_without_record(kept) != text_without_record(as_found)) return std::nullopt;
    return as_started(store, kept);
  };
}

}  // namespace heatwork::desk
