#include "desk/lab/settings.h"

#include <fmt/format.h>

#include <array>
#include <cstdlib>
#include <filesystem>
#include <system_error>

#include "desk/errors.h"
#include "desk/files.h"
#include "desk/lab/local_time.h"
#include "quantity/read.h"
#include "trade/mistake.h"
#include "trade/noun.h"
#include "trade/reader.h"
#include "trade/toml_text.h"

namespace heatwork::desk {
namespace {

using trade::Mistake;
using trade::Node;

constexpr std::array<std::string_view, 8> keys{"store", "person", "zone", "language", "units", "backups", "backups_every", "backups_kept"};

std::string text_of(const trade::Entry& entry) {
  if (entry.value.kind != Node::Kind::text)
    throw Mistake(entry.value.place, fmt::format("{} is {}; it is a text in quotes", entry.key, trade::kind_in_words(entry.value.kind)));
  if (entry.value.text.empty()) throw Mistake(entry.value.place, fmt::format("{} is empty; leave the line out instead", entry.key));
  return entry.value.text;
}

std::string one_of(const trade::Entry& entry, std::string_view first, std::string_view second) {
  std::string text = text_of(entry);
  if (text != first && text != second)
    throw Mistake(entry.value.place,
                  fmt::format("{} is \"{}\"; allowed are \"{}\" and \"{}\"", entry.key, trade::for_message(text), first, second));
  return text;
}

std::string zone_of(const trade::Entry& entry) {
  std::string zone = text_of(entry);
  try {
    local_day(0, zone);
  } catch (const Failure&) {
    throw Mistake(entry.value.place, fmt::format("this machine knows no time zone \"{}\"; one is \"Europe/Berlin\", another \"UTC\"",
                                                 trade::for_message(zone)));
  }
  return zone;
}

std::string person_of(const trade::Entry& entry) {
  std::string code = text_of(entry);
  if (const auto wrong = trade::wrong_name(code)) throw Mistake(entry.value.place, "person: " + *wrong);
  return code;
}

std::string duration_of(const trade::Entry& entry) {
  std::string typed = text_of(entry);
  const auto read = quantity::read<quantity::Duration>(typed);
  if (!read || read->si() < 60)
    throw Mistake(entry.value.place,
                  fmt::format("{} is \"{}\"; it is a duration of at least 1 min, such as \"24 h\"", entry.key, trade::for_message(typed)));
  return typed;
}

int count_of(const trade::Entry& entry) {
  constexpr int most = 10'000;
  const bool whole = entry.value.kind == Node::Kind::whole_number;
  if (!whole || entry.value.number < 1 || entry.value.number > most)
    throw Mistake(entry.value.place,
                  fmt::format("{} is {}; it is a whole number from 1 to {}, without quotes", entry.key,
                              whole ? std::string_view(entry.value.text) : trade::kind_in_words(entry.value.kind), most));
  return static_cast<int>(entry.value.number);
}

void set(Settings& settings, const trade::Entry& entry) {
  if (entry.key == "store") {
    settings.store = text_of(entry);
  } else if (entry.key == "person") {
    settings.person = person_of(entry);
  } else if (entry.key == "zone") {
    settings.zone = zone_of(entry);
  } else if (entry.key == "language") {
    settings.language = one_of(entry, "en", "de");
  } else if (entry.key == "units") {
    settings.units = one_of(entry, "celsius", "fahrenheit");
  } else if (entry.key == "backups") {
    settings.backups = text_of(entry);
  } else if (entry.key == "backups_every") {
    settings.backups_every = duration_of(entry);
  } else if (entry.key == "backups_kept") {
    settings.backups_kept = count_of(entry);
  } else {
    const std::string meant = quantity::near_miss(entry.key, keys);
    throw Mistake(entry.place, fmt::format("\"{}\" is no setting{}; allowed are {}", trade::for_message(entry.key),
                                           meant.empty() ? "" : fmt::format(" (did you mean {}?)", meant), fmt::join(keys, ", ")));
  }
}

std::string folder_of(const Variables& variables, const char* own, std::string_view below_home, std::string_view of_service) {
  // A relative path in these variables is to be passed over, as their specification says.
  if (const std::string named = variables(own); named.starts_with('/')) return named + "/heatwork";
  if (const std::string home = variables("HOME"); !home.empty()) return fmt::format("{}/{}/heatwork", home, below_home);
  return std::string(of_service);
}

}  // namespace

Variables variables_of_process() {
  return [](const char* name) {
    const char* found = std::getenv(name);
    return std::string(found == nullptr ? "" : found);
  };
}

std::string settings_file(const Variables& variables) {
  return folder_of(variables, "XDG_CONFIG_HOME", ".config", "/etc/heatwork") + "/settings.toml";
}

Settings read_settings(std::string_view source_name, std::string_view text) {
  const auto source = trade::source_of(source_name, text);
  const Node root = trade::parse_toml(source);
  const Node* format = root.find("format");
  if (format == nullptr || format->kind != Node::Kind::whole_number || format->number != 1)
    throw Mistake(format == nullptr ? trade::Place{source, 1, 1} : format->place, "a file of settings begins with format = 1");
  Settings settings;
  for (const trade::Entry& entry : root.entries) {
    if (entry.key == "format") continue;
    if (entry.key != "settings")
      throw Mistake(entry.place, fmt::format("\"{}\" has no place in a file of settings; allowed are format and [settings]",
                                             trade::for_message(entry.key)));
    if (entry.value.kind != Node::Kind::table) throw Mistake(entry.place, "settings is no table; write [settings]");
    for (const trade::Entry& one : entry.value.entries) set(settings, one);
  }
  return settings;
}

Settings settings_of(const Variables& variables) {
  const std::string file = settings_file(variables);
  std::error_code ignored;
  if (std::filesystem::status(file, ignored).type() == std::filesystem::file_type::not_found) return {};
  return read_settings(file, read_whole(file));
}

std::string language_of_settings(const Variables& variables) {
  try {
    const std::string file = settings_file(variables);
    const Node root = trade::parse_toml(trade::source_of(file, read_whole(file)));
    const Node* settings = root.find("settings");
    const Node* said = settings == nullptr ? nullptr : settings->find("language");
    return said == nullptr ? "" : said->text;
  } catch (const std::exception&) {  // what is wrong there is told by whoever needs the settings
    return "";
  }
}

std::string data_folder(const Variables& variables) {
  return folder_of(variables, "XDG_DATA_HOME", ".local/share", "/var/lib/heatwork");
}

std::string store_address(const std::string& asked, const Settings& settings, const Variables& variables) {
  if (!asked.empty()) return asked;
  if (std::string named = variables("HEATWORK_STORE"); !named.empty()) return named;
  if (!settings.store.empty()) return settings.store;
  return data_folder(variables) + "/lab.sqlite";
}

}  // namespace heatwork::desk
