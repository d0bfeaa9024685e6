#include "desk/lab/rehearse_in_lab.h"

#include <fmt/format.h>

#include <charconv>
#include <filesystem>
#include <utility>

#include "desk/errors.h"
#include "desk/lab/kept_firing.h"
#include "desk/lab/store_shelf.h"
#include "quantity/read.h"
#include "trade/library.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

namespace fs = std::filesystem;

struct NameAndVersion {
  std::string name;
  std::optional<int> version;
};

NameAndVersion name_and_version(const std::string& word) {
  const std::size_t at = word.find('@');
  NameAndVersion out{word.substr(0, at), std::nullopt};
  if (at != std::string::npos) {
    const std::string digits = word.substr(at + 1);
    int version = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), version);
    if (error != std::errc() || end != digits.data() + digits.size() || version < 1)
      throw Failure(ErrorWord::bad_value,
                    fmt::format("\"{}\" names no version; a firing of the store is NAME or NAME@VERSION, such as {}@1.",
                                trade::for_message(word), out.name.empty() ? "dentine" : out.name));
    out.version = version;
  }
  if (const auto wrong = trade::wrong_name(out.name))
    throw Failure(ErrorWord::bad_value,
                  fmt::format("\"{}\" is no name of a firing: {}. A file's name ends in .toml.", trade::for_message(out.name), *wrong));
  return out;
}

/// Enough of them to find a slip of the pen in; a lab of many years has too many to read them all.
std::vector<std::string> some_names(records::Store& store) {
  records::HeadQuery query;
  query.kind = trade::word(trade::Noun::firing);
  std::vector<std::string> names;
  for (const auto& head : store.heads(query).rows) names.push_back(head.id);
  return names;
}

records::Document document_of(const std::string& word, const StorePlace& place, records::Store* store) {
  const auto [name, version] = name_and_version(word);
  if (store == nullptr)
    throw Failure(ErrorWord::no_store, fmt::format("Firing \"{}\" would stand in the store {}, but there is none. A file's name ends in "
                                                   ".toml.",
                                                   name, place.address.shown()));
  if (auto document = store->find(trade::word(trade::Noun::firing), name, version)) return std::move(*document);
  const std::string where = place.address.shown();
  const auto newest = version ? store->find(trade::word(trade::Noun::firing), name) : std::nullopt;
  if (newest)
    throw Failure(ErrorWord::unknown_name, fmt::format("Firing {} has no version {}; its newest is {}.", name, *version, newest->version));
  const std::string near = quantity::near_miss(name, some_names(*store));
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

trade::ResolvedFiring found_in_lab(const std::string& firing, const StorePlace& place, records::Store* store) {
  trade::Library library(ambient_of_altitude);
  const std::string file = file_of_firing(firing);
  trade::Firing asked;
  if (file.empty()) {
    const records::Document document = document_of(firing, place, store);
    asked = firing_of(document);
    if (was_started(asked)) return as_started(*store, asked);
  } else {
    asked = trade::read_noun<trade::Firing>(trade::source_from_file(file), {});
    library.add(trade::folder_shelf(fs::path(file).parent_path()));
  }
  if (store != nullptr) library.add(store_shelf(*store));
  library.add(trade::shipped_shelf());
  return library.resolve(asked, store != nullptr ? fired_before(*store) : trade::FiringOfThePast{});
}

Rehearsed rehearse_in_lab(const std::string& firing, const AskedLab& asked) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    auto store = store_that_stands(place);
    trade::ResolvedFiring found = found_in_lab(firing, place, store ? &*store : nullptr);
    const std::string file = file_of_firing(firing);
    if (!file.empty()) return rehearse_found(std::move(found), file, {});
    const auto limits = limits_kept_with(*store, found.firing.name);
    return rehearse_by_limits(std::move(found), limits);
  });
}

}  // namespace heatwork::desk
