#include "desk/lab/rehearse_in_lab.h"

#include <fmt/format.h>

#include <filesystem>
#include <utility>

#include "desk/errors.h"
#include "desk/lab/furnace_in_lab.h"
#include "desk/lab/kept_firing.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/store_shelf.h"
#include "trade/library.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

namespace fs = std::filesystem;

records::Document document_of(const std::string& word, const StorePlace& place, records::Store* store) {
  const auto [name, version] = read_asked_version(trade::Noun::firing, word);
  if (store == nullptr)
    throw Failure(ErrorWord::no_store, fmt::format("Firing \"{}\" would stand in the store {}, but there is none. A file's name ends in "
                                                   ".toml.",
                                                   name, place.address.shown()));
  if (auto document = store->find(trade::word(trade::Noun::firing), name, version)) return std::move(*document);
  const std::string where = place.address.shown();
  const auto newest = version ? store->find(trade::word(trade::Noun::firing), name) : std::nullopt;
  if (newest)
    throw Failure(ErrorWord::unknown_name, fmt::format("Firing {} has no version {}; its newest is {}.", name, *version, newest->version));
  const std::string near = near_kept_name(*store, trade::word(trade::Noun::firing), name);
  throw Failure(ErrorWord::unknown_name,
                fmt::format("The store {} keeps no firing \"{}\"{}", where, name,
                            near.empty() ? "; a file's name ends in .toml." : fmt::format("; did you mean \"{}\"?", near)));
}

}  // namespace

std::optional<records::Store> store_that_stands(const StorePlace& place) {
  if (place.nobody_named_it && place.address.engine == records::Engine::sqlite) {
    std::error_code error;
    if (fs::symlink_status(place.address.where, error).type() == fs::file_type::not_found) return std::nullopt;
  }
  return opened(place, Reading::only);
}

std::string file_of_firing(const std::string& firing) {
  return firing.find_first_of("./") == std::string::npos ? "" : firing;
}

trade::ResolvedFiring found_in_lab(const std::string& firing, const StorePlace& place, records::Store* store,
                                   std::optional<std::int64_t> starts_ms) {
  trade::Library library(ambient_of_altitude);
  const std::string file = file_of_firing(firing);
  trade::Firing asked;
  if (file.empty()) {
    const records::Document document = document_of(firing, place, store);
    asked = firing_of(document);
    if (was_started(asked)) return as_started(*store, asked, place.zone);
  } else {
    asked = trade::read_noun<trade::Firing>(trade::source_from_file(file), {});
    library.add(trade::folder_shelf(fs::path(file).parent_path()));
  }
  if (store != nullptr) library.add(store_shelf(*store));
  library.add(trade::shipped_shelf());
  if (store == nullptr) return library.resolve(asked);
  trade::ResolvedFiring found = library.resolve(asked, fired_before(*store));
  RehearsedAt at = rehearsed_at(place);
  if (starts_ms) at.now_ms = *starts_ms;
  know_furnaces(*store, at, found);
  return found;
}

Rehearsed rehearse_in_lab(const std::string& firing, const AskedLab& asked, const Manner& manner) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    auto store = store_that_stands(place);
    trade::ResolvedFiring found = found_in_lab(firing, place, store ? &*store : nullptr);
    const std::string file = file_of_firing(firing);
    if (!file.empty()) return rehearse_found(std::move(found), file, {}, manner);
    const auto limits = limits_kept_with(*store, found.firing.name);
    return rehearse_by_limits(std::move(found), limits, manner);
  });
}

}  // namespace heatwork::desk
