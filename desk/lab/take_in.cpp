#include "desk/lab/take_in.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <vector>

#include "desk/errors.h"
#include "desk/folder_files.h"
#include "desk/lab/keep.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/store_place.h"
#include "desk/lab/store_shelf.h"
#include "trade/library.h"

namespace heatwork::desk {
namespace {

namespace fs = std::filesystem;

struct File {
  std::string path;
  std::shared_ptr<const trade::Source> source;
  KeptText kept;
};

/// The files of nouns in a folder, in order of path; files of something else are passed over.
std::vector<File> files_of_lab(const std::string& folder) {
  if (!fs::is_directory(folder)) throw Failure(ErrorWord::file_not_found, fmt::format("There is no folder {}.", folder));
  std::vector<fs::path> paths;
  for (const auto& entry : fs::directory_iterator(folder))
    if (entry.path().extension() == ".toml" && entry.is_regular_file()) paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  std::vector<File> files;
  std::map<std::string, std::string> seen;
  for (const auto& path : paths) {
    auto source = trade::source_from_file(path);
    if (!trade::heading_of(source)) continue;
    KeptText kept = kept_text(source);
    const std::string what = fmt::format("{} {}", trade::word(kept.noun), kept.name);
    const auto [stands, is_first] = seen.emplace(what, path.string());
    if (!is_first)
      throw Failure(ErrorWord::bad_value, fmt::format("{} stands in {} and in {}; nothing was kept.", what, stands->second, path.string()));
    files.push_back({path.string(), std::move(source), std::move(kept)});
  }
  if (files.empty()) throw Failure(ErrorWord::bad_value, fmt::format("The folder {} holds no file of a lab; nothing was kept.", folder));
  return files;
}

struct Taken {
  records::Change change;
  std::vector<std::string> added, changed;
  int left = 0;
};

/// The file of a firing says what was planned; what became of it stands in the store, and a file that is silent of it takes nothing away.
bool is_planned_so(const File& file, const records::Document& stands) {
  if (file.kept.noun != trade::Noun::firing) return false;
  const auto firing = read_kept<trade::Firing>(file.source);
  return !firing.record && text_without_record(firing) == text_without_record(firing_of(stands));
}

Taken what_is_new(records::Store& store, const std::vector<File>& files, const std::string& reason) {
  Taken taken;
  for (const File& file : files) {
    const std::string kind(trade::word(file.kept.noun));
    const std::string what = fmt::format("{} {}", kind, file.kept.name);
    const auto stands = store.find(kind, file.kept.name);
    if (stands && (stands->body == file.kept.body || is_planned_so(file, *stands))) {
      ++taken.left;
      continue;
    }
    if (stands && reason.empty())
      throw Failure(ErrorWord::conflict,
                    fmt::format("{} differs from {}, version {}, in the store; nothing was kept. Say why, and it becomes "
                                "version {}.",
                                file.path, what, stands->version, stands->version + 1));
    records::NewVersion version;
    version.kind = kind;
    version.id = file.kept.name;
    version.after = stands ? stands->version : 0;
    version.body = file.kept.body;
    version.typed = file.source->text;
    version.action = stands ? "changed" : "added";
    version.reason = reason;
    taken.change.documents.push_back(std::move(version));
    (stands ? taken.changed : taken.added).push_back(what);
  }
  return taken;
}

JsonList names(const std::vector<std::string>& from) {
  return {from.begin(), from.end()};
}

std::string file_of(const records::Document& document) {
  return fmt::format("{}-{}.toml", trade::file_word(*trade::noun_of(document.kind)), document.id);
}

/// The newest version of everything a file can hold, in order of kind and name.
std::vector<records::Document> newest(records::Store& store) {
  std::vector<records::Document> all;
  for (const auto kind : trade::noun_words) {
    records::HeadQuery query;
    query.kind = kind;
    for (bool more = true; more; ++query.page) {
      const auto page = store.heads(query);
      for (const auto& head : page.rows)
        if (auto document = store.find(head.kind, head.id)) all.push_back(std::move(*document));
      more = static_cast<std::int64_t>(query.page) * records::rows_a_page < page.count;
    }
  }
  return all;
}

}  // namespace

CareAnswer take_in(const AskedLab& asked, const std::string& folder, const std::string& reason) {
  const std::vector<File> files = files_of_lab(folder);
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened_to_keep(place);
    Taken taken = what_is_new(store, files, reason);
    const std::string head = keep(place, store, std::move(taken.change)).head;
    std::string text = care_line(
        "Kept", fmt::format("{} added, {} changed, {} stood there already", taken.added.size(), taken.changed.size(), taken.left));
    for (const auto& what : taken.changed) text += care_line("Changed", what);
    text += care_line("Head hash", head);
    return CareAnswer{
        text,
        JsonObject{{"format", 1}, {"added", names(taken.added)}, {"changed", names(taken.changed)}, {"left", taken.left}, {"head", head}},
        false};
  });
}

CareAnswer write_out(const AskedLab& asked, const std::string& folder) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    const auto documents = newest(store);
    if (documents.empty()) throw Failure(ErrorWord::unknown_name, "The store holds no file of a lab yet; nothing was written.");
    std::vector<FolderFile> files;
    for (const auto& document : documents) files.push_back({file_of(document), document.body});
    const FolderWritten done = write_folder(folder, files, "Name an empty folder.");
    return CareAnswer{
        care_line("Written", fmt::format("{} files into {}, {} stood there already", done.written.size(), folder, done.kept.size())),
        JsonObject{{"format", 1}, {"folder", folder}, {"written", names(done.written)}, {"kept", names(done.kept)}}, false};
  });
}

}  // namespace heatwork::desk
