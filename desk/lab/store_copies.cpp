// The ways out of a store and back: backups and exports.
#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <memory>
#include <system_error>
#include <vector>

#include "desk/errors.h"
#include "desk/files.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_care.h"
#include "desk/lab/store_place.h"
#include "records/backup.h"
#include "records/exchange.h"
#include "records/verify.h"

namespace heatwork::desk {
namespace {

namespace fs = std::filesystem;

/// Copying needs no right to write; only a store of an earlier format is brought to this one first.
records::Store opened_for_copying(const StorePlace& place) {
  try {
    return opened(place, Reading::only);
  } catch (const records::StoreError& error) {
    if (error.problem() != records::StoreProblem::too_old) throw;
  }
  return opened(place, Reading::and_writing);
}

records::BackUpAsked asked_of(const StorePlace& place, const BackUpWords& words) {
  records::BackUpAsked wanted;
  wanted.folder = words.folder.empty() ? place.backups : words.folder;
  if (wanted.folder.empty()) {
    throw Failure(ErrorWord::wrong_use,
                  "No folder is given for the backup, and the settings name none: \"heatwork store back-up FOLDER\", or \"backups\" in "
                  "settings.toml.");
  }
  wanted.keep = words.keep.value_or(place.backups_kept);
  if (words.if_due) {
    const std::string every = words.every.empty() ? place.backups_every : words.every;
    if (every.empty()) {
      throw Failure(ErrorWord::wrong_use,
                    "How often to back up is not said: \"24 h\" and the like, or \"backups_every\" in settings.toml.");
    }
    wanted.if_due_s = seconds_of_every(every);
  }
  wanted.now_utc = place.opening.who.at_utc;
  wanted.index_of = place.opening.index_of;
  return wanted;
}

std::string folder_in_words(const std::string& path) {
  std::error_code error;
  const auto space = fs::space(fs::path(path).parent_path(), error);
  return error ? "" : fmt::format("; free on its disk: {}", bytes_in_words(static_cast<std::int64_t>(space.available)));
}

std::string no_room_in(const std::string& folder) {
  std::error_code error;
  const auto space = fs::space(folder, error);
  return fmt::format(
      "The backup cannot be written: the disk of {} is full, a limit of size is reached, or the disk fails{}. No half copy is "
      "left, and the store is as it was. Make room, keep fewer backups, or take another disk.",
      folder, error ? "" : fmt::format("; it has {} free", bytes_in_words(static_cast<std::int64_t>(space.available))));
}

CareAnswer told(const StorePlace& place, const records::BackUpMade& made) {
  CareAnswer answer;
  if (made.made) {
    answer.text = care_line("Backup", made.path) + care_line("Proven", "opened again, every hash computed anew, compared with the store") +
                  care_line("Size", bytes_in_words(made.bytes) + folder_in_words(made.path)) + care_line("Export hash", made.export_hash) +
                  care_line("Head hash", made.head);
  } else {
    answer.text = care_line("Not due", fmt::format("the newest backup is {}", made.path));
  }
  JsonList dropped, said;
  for (const std::string& path : made.dropped) {
    answer.text += care_line(dropped.empty() ? "Dropped" : "", path);
    dropped.emplace_back(path);
  }
  for (const std::string& sentence : made.said) {
    answer.text += care_line(said.empty() ? "Also seen" : "", sentence);
    said.emplace_back(sentence);
  }
  answer.json = JsonObject{{"format", 1},
                           {"store", place.address.shown()},
                           {"made", made.made},
                           {"path", made.path},
                           {"bytes", static_cast<double>(made.bytes)},
                           {"export_hash", made.export_hash},
                           {"head", made.head},
                           {"dropped", dropped},
                           {"said", said}};
  return answer;
}

/// The copy that is meant: the file itself, or the newest in a folder.
std::string copy_meant(const std::string& backup) {
  std::error_code error;
  if (!fs::is_directory(backup, error)) return backup;
  const std::vector<CopySeen> seen = copies_seen(backup);
  if (seen.empty()) throw Failure(ErrorWord::file_not_found, fmt::format("In {} stands no backup (heatwork-....sqlite).", backup));
  for (const CopySeen& copy : seen) {
    if (copy.store == seen.front().store) continue;
    throw Failure(ErrorWord::bad_value,
                  fmt::format("{} holds backups of more than one store; name the file: {} is the newest of one, {} of "
                              "another.",
                              backup, seen.front().path, copy.path));
  }
  return seen.front().path;
}

/// A line "export hash  1f0c..." of the text beside a copy; empty where it says none.
std::string said_beside(const std::string& backup, const std::string& what) {
  std::ifstream text(backup + ".txt");
  for (std::string line; std::getline(text, line);) {
    if (line.starts_with(what)) return line.substr(line.find_last_of(' ') + 1);
  }
  return "";
}

struct Compared {
  std::string words;
  bool wrong = false;
};

/// What came back against what the text beside the copy says it holds.
Compared compare(const StorePlace& place, const std::string& backup, const records::Copied& copied, const records::Watch& watch) {
  const std::string export_hash = said_beside(backup, "export hash"), head = said_beside(backup, "head hash");
  if (export_hash.empty() || head.empty()) return {fmt::format("no text beside the backup ({}.txt) to compare with", backup)};
  if (export_hash == copied.export_hash) return {"the same export hash as when the backup was made"};
  records::Store store = opened(place, Reading::only);
  records::VerifyAsked wanted;
  wanted.head = head;
  wanted.watch = watch;
  if (copied.head != head && records::verify(store, wanted).wrong.empty()) {
    return {
        "a backup of an earlier format, brought to this one: its head hash stands in the trail, with the entries of the change behind it"};
  }
  return {fmt::format("another export hash than the text beside the backup says ({}): text and backup do not belong together", export_hash),
          true};
}

/// Files that are of use together only: those already written go again unless all came to their end.
struct Together {
  std::vector<std::string> paths;
  std::string made_folder;  ///< empty: it stood before
  bool whole = false;
  Together() = default;
  Together(const Together&) = delete;
  Together& operator=(const Together&) = delete;
  ~Together() {
    std::error_code ignored;
    if (whole) return;
    for (const std::string& path : paths) fs::remove(path, ignored);
    if (!made_folder.empty()) fs::remove(made_folder, ignored);  // where it is empty
  }
};

fs::path not_there_yet(const std::string& path) {
  std::error_code error;
  if (fs::symlink_status(path, error).type() != fs::file_type::not_found && !fs::is_character_file(path, error) &&
      !fs::is_fifo(path, error)) {
    throw Failure(ErrorWord::already_there, fmt::format("{} stands already; nothing was written.", path));
  }
  return path;
}

}  // namespace

CareAnswer back_up_store(const AskedLab& asked, const BackUpWords& words, const CareWatch& watch) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::BackUpAsked wanted = asked_of(place, words);
    wanted.watch = watch_of(watch);
    records::Store store = opened_for_copying(place);
    try {
      return told(place, records::back_up(store, wanted));
    } catch (const records::StoreError& error) {
      if (error.problem() != records::StoreProblem::full) throw;
      throw records::StoreError(error.problem(), no_room_in(wanted.folder));
    }
  });
}

CareAnswer restore_store(const AskedLab& asked, const std::string& backup, const CareWatch& watch) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    const std::string copy = copy_meant(backup);
    const records::Copied copied = records::restore(copy, place.address, place.opening, watch_of(watch));
    const Compared compared = compare(place, copy, copied, watch_of(watch));
    const std::string shown = place.address.shown();
    return CareAnswer{
        care_line("Restored", fmt::format("{} to {}", copy, shown)) +
            care_line("Holds", fmt::format("{}, {}; every hash computed anew", counted(copied.documents, "version", "versions"),
                                           counted(copied.entries, "trail entry", "trail entries"))) +
            care_line(compared.wrong ? "Wrong" : "Compared", compared.words) + care_line("Export hash", copied.export_hash) +
            care_line("Head hash", copied.head),
        JsonObject{{"format", 1},
                   {"backup", copy},
                   {"store", shown},
                   {"versions", static_cast<double>(copied.documents)},
                   {"entries", static_cast<double>(copied.entries)},
                   {"export_hash", copied.export_hash},
                   {"head", copied.head},
                   {"compared", compared.words},
                   {"differs", compared.wrong}},
        compared.wrong};
  });
}

CareAnswer export_store(const AskedLab& asked, const std::string& file, const CareWatch& watch) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened_for_copying(place);
    WholeFile text(not_there_yet(file).string());
    std::int64_t bytes = 0;
    const auto sink = [&](std::string_view part) {
      text.put(part);
      bytes += static_cast<std::int64_t>(part.size());
    };
    const std::string hash = records::export_json(store, sink, watch_of(watch));
    text.done();
    return CareAnswer{
        care_line("Exported", fmt::format("{} to {}, {}", place.address.shown(), file, bytes_in_words(bytes))) +
            care_line("Export hash", hash) +
            care_line("Beware", "It holds whatever personal data the store holds: keep it as safe as the store."),
        JsonObject{
            {"format", 1}, {"store", place.address.shown()}, {"file", file}, {"bytes", static_cast<double>(bytes)}, {"export_hash", hash}},
        false};
  });
}

CareAnswer export_tables(const AskedLab& asked, const std::string& folder, const CareWatch& watch) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened_for_copying(place);
    std::error_code error;
    Together together;
    together.made_folder = fs::create_directories(folder, error) ? folder : "";
    if (error) throw Failure(ErrorWord::cannot_write, fmt::format("The folder {} cannot be made: {}.", folder, error.message()));
    std::unique_ptr<WholeFile> current;
    JsonList files;
    std::string name, text;
    const auto sink = [&](std::string_view file, std::string_view part) {
      if (!current || file != name) {
        if (current) current->done();
        name = std::string(file);
        const std::string path = (fs::path(folder) / name).string();
        current.reset();
        current = std::make_unique<WholeFile>(not_there_yet(path).string());
        together.paths.push_back(path);
        text += care_line(files.empty() ? "Exported" : "", path);
        files.emplace_back(path);
      }
      current->put(part);
    };
    records::export_csv(store, sink, watch_of(watch));
    if (current) current->done();
    together.whole = true;
    return CareAnswer{text, JsonObject{{"format", 1}, {"store", place.address.shown()}, {"files", files}}, false};
  });
}

CareAnswer import_store(const AskedLab& asked, const std::string& file, const CareWatch& watch) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    std::ifstream text(file, std::ios::binary);
    std::error_code error;
    if (!text || fs::is_directory(file, error)) throw Failure(ErrorWord::file_not_found, fmt::format("{} cannot be read.", file));
    const auto lines = [&]() -> std::optional<std::string> {
      std::string line;
      if (!std::getline(text, line)) {
        if (text.bad()) throw Failure(ErrorWord::cannot_read, fmt::format("{} cannot be read to its end.", file));
        return std::nullopt;
      }
      return line;
    };
    const std::string hash = records::import_json(lines, place.address, place.opening, watch_of(watch));
    const std::string shown = place.address.shown();
    return CareAnswer{
        care_line("Taken in", fmt::format("{} to a store at {}; every hash computed anew", file, shown)) + care_line("Export hash", hash),
        JsonObject{{"format", 1}, {"file", file}, {"store", shown}, {"export_hash", hash}}, false};
  });
}

}  // namespace heatwork::desk
