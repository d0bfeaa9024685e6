#include "desk/lab/kept_names.h"

#include <fmt/format.h>

#include <charconv>
#include <vector>

#include "desk/errors.h"
#include "desk/lab/kept_text.h"
#include "quantity/read.h"
#include "trade/lock_name.h"
#include "trade/mistake.h"
#include "trade/records.h"

namespace heatwork::desk {
namespace {

constexpr int pages_for_a_near_miss = 5;

std::vector<std::string> names_of(records::Store& store, std::string_view kind) {
  std::vector<std::string> names;
  records::HeadQuery query;
  query.kind = kind;
  for (; query.page <= pages_for_a_near_miss; ++query.page) {
    const auto page = store.heads(query);
    for (const auto& head : page.rows) names.push_back(head.id);
    if (page.rows.size() < records::rows_a_page) break;
  }
  return names;
}

[[noreturn]] void unknown(records::Store& store, trade::Noun noun, const std::string& name) {
  const std::vector<std::string> names = names_of(store, trade::word(noun));
  const std::string meant = quantity::near_miss(name, names);
  std::string more = fmt::format("; \"heatwork {} list\" shows what there is", trade::file_word(noun));
  if (names.empty()) more = fmt::format("; none is kept yet, \"heatwork {} add\" keeps one", trade::file_word(noun));
  if (!meant.empty()) more = fmt::format("; did you mean \"{}\"?", meant);
  throw Failure(ErrorWord::unknown_name, fmt::format("No {} \"{}\" is kept{}{}", trade::word(noun), trade::for_message(name, 60), more,
                                                     more.ends_with('?') ? "" : "."));
}

}  // namespace

std::string near_kept_name(records::Store& store, std::string_view kind, const std::string& typed) {
  return quantity::near_miss(typed, names_of(store, kind));
}

std::string not_kept(records::Store& store, std::string_view kind, const std::string& name, std::string_view what_to_do) {
  const std::string near = near_kept_name(store, kind, name);
  return fmt::format("The store keeps no {} \"{}\"; {}", kind, trade::for_message(name),
                     near.empty() ? std::string(what_to_do) : fmt::format("did you mean \"{}\"?", near));
}

AskedVersion read_asked_version(trade::Noun noun, const std::string& typed) {
  const auto at = typed.find('@');
  AskedVersion asked{typed.substr(0, at), std::nullopt};
  if (const auto wrong = trade::wrong_name(asked.name, 80))
    throw Failure(ErrorWord::bad_value, fmt::format("The {}'s name: {}.", trade::word(noun), *wrong));
  if (at == std::string::npos) return asked;
  const std::string number = typed.substr(at + 1);
  int version = 0;
  const auto [end, problem] = std::from_chars(number.data(), number.data() + number.size(), version);
  if (problem != std::errc() || end != number.data() + number.size() || version < 1)
    throw Failure(ErrorWord::bad_value, fmt::format("\"{}\" names no version; a version is a number from 1, as in {}@1.",
                                                    trade::for_message(typed, 80), asked.name));
  asked.version = version;
  return asked;
}

std::string titled(trade::Noun noun, const std::string& name) {
  return fmt::format("{} {}", trade::word(noun), name);
}

records::Document kept_document(records::Store& store, trade::Noun noun, const AskedVersion& asked) {
  if (auto found = store.find(trade::word(noun), asked.name, asked.version)) return std::move(*found);
  if (asked.version) {
    if (const auto newest = store.find(trade::word(noun), asked.name))
      throw Failure(ErrorWord::unknown_name, fmt::format("There is no version {} of {}; the newest is {}.", *asked.version,
                                                         titled(noun, asked.name), newest->version));
  }
  unknown(store, noun, asked.name);
}

records::Document newest_document(records::Store& store, trade::Noun noun, const std::string& name) {
  const AskedVersion asked = read_asked_version(noun, name);
  if (asked.version)
    throw Failure(ErrorWord::bad_value, fmt::format("A kept version never changes: name {} without \"@{}\".", asked.name, *asked.version));
  return kept_document(store, noun, asked);
}

std::optional<std::string> locked_because(records::Store& store, std::string_view kind, const std::string& name) {
  const auto stands = store.find("lock", trade::lock_name(kind, name));
  if (!stands) return std::nullopt;
  const auto lock = read_kept<trade::Lock>(trade::source_of("lock " + stands->id, stands->body));
  if (!lock.locked) return std::nullopt;
  return lock.reason;
}

}  // namespace heatwork::desk
