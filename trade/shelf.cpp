#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <optional>
#include <sstream>

#include "trade/library.h"
#include "trade/mistake.h"
#include "trade/shipped.h"
#include "trade/toml_text.h"

namespace heatwork::trade {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_files = 2000;

void sort_once(std::vector<std::string>& names) {
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
}

/// A file of a folder: its text is read when a name is first sought, its heading when the text holds that name.
struct FolderFile {
  fs::path path;
  std::shared_ptr<const Source> source;
  bool heading_read = false;
  std::optional<Heading> heading;
};

class FolderShelf : public Shelf {
 public:
  explicit FolderShelf(fs::path folder) : folder_(std::move(folder)) {}

  [[nodiscard]] std::vector<Found> find(Noun noun, std::string_view name) const override {
    std::vector<Found> found;
    std::optional<Mistake> unreadable;
    for (auto& file : files()) {
      if (file.source->text.find(name) == std::string::npos) continue;
      try {
        const auto& heading = heading_of_file(file);
        if (heading && heading->noun == noun && heading->name == name)
          found.push_back({file.source, fmt::format("beside: {}", file.path.filename().string())});
      } catch (const Mistake& mistake) {
        if (!unreadable) unreadable = mistake;
      }
    }
    // A file that cannot be read may be the one meant: going on to another place would pick the wrong one silently.
    if (found.empty() && unreadable) throw Mistake(*unreadable);
    return found;
  }

  [[nodiscard]] std::vector<std::string> names(Noun noun) const override {
    std::vector<std::string> all;
    for (auto& file : files()) {
      try {
        const auto& heading = heading_of_file(file);
        if (heading && heading->noun == noun) all.push_back(heading->name);
      } catch (const Mistake&) {
        continue;  // it has no name anyone could ask for
      }
    }
    sort_once(all);
    return all;
  }

  [[nodiscard]] std::string_view in_words() const override { return "beside the file"; }

 private:
  std::vector<FolderFile>& files() const {
    if (listed_) return files_;
    listed_ = true;
    std::error_code error;
    std::vector<fs::path> paths;
    for (auto entry = fs::directory_iterator(folder_.empty() ? fs::path(".") : folder_, error); !error && entry != fs::directory_iterator();
         entry.increment(error)) {
      std::error_code ignored;
      if (entry->path().extension() == ".toml" && entry->is_regular_file(ignored) && entry->file_size(ignored) <= largest_text)
        paths.push_back(folder_ / entry->path().filename());
    }
    if (paths.size() > most_files)
      throw Mistake({}, fmt::format("the folder {} holds {} files; names are sought among {} at the most", folder_.string(), paths.size(),
                                    most_files));
    std::sort(paths.begin(), paths.end());
    for (const auto& path : paths) files_.push_back({path, source_from_file(path), false, std::nullopt});
    return files_;
  }

  static const std::optional<Heading>& heading_of_file(FolderFile& file) {
    if (!file.heading_read) file.heading = heading_of(file.source);
    file.heading_read = true;
    return file.heading;
  }

  fs::path folder_;
  mutable bool listed_ = false;
  mutable std::vector<FolderFile> files_;
};

/// Shipped files bear the name of what they hold, so that no other need be opened.
class ShippedShelf : public Shelf {
 public:
  [[nodiscard]] std::vector<Found> find(Noun noun, std::string_view name) const override {
    const std::string path = fmt::format("{}/{}.toml", shipped_folder(noun), name);
    const std::string_view text = shipped_text(path);
    if (text.empty()) return {};
    return {{source_of(fmt::format("shipped:{}", path), text), fmt::format("shipped: {}", path)}};
  }

  [[nodiscard]] std::vector<std::string> names(Noun noun) const override {
    const std::string folder = fmt::format("{}/", shipped_folder(noun));
    std::vector<std::string> all;
    for (const auto& file : shipped_files()) {
      if (!file.path.starts_with(folder) || !file.path.ends_with(".toml")) continue;
      all.emplace_back(file.path.substr(folder.size(), file.path.size() - folder.size() - 5));
    }
    sort_once(all);
    return all;
  }

  [[nodiscard]] std::string_view in_words() const override { return "among what ships"; }
};

}  // namespace

std::unique_ptr<Shelf> folder_shelf(const fs::path& folder) {
  return std::make_unique<FolderShelf>(folder);
}
std::unique_ptr<Shelf> shipped_shelf() {
  return std::make_unique<ShippedShelf>();
}

std::shared_ptr<const Source> source_from_file(const fs::path& path) {
  std::error_code error;
  const auto status = fs::status(path, error);
  if (!fs::exists(status)) throw Mistake({}, fmt::format("{}: there is no such file", path.string()));
  if (!fs::is_regular_file(status)) throw Mistake({}, fmt::format("{}: this is not a file that can be read", path.string()));
  const auto size = fs::file_size(path, error);
  if (!error && size > largest_text)
    throw Mistake({}, fmt::format("{}: the file has {:.1f} MB; files up to {} MB are read", path.string(),
                                  static_cast<double>(size) / 1048576.0, largest_text >> 20U));
  std::ifstream stream(path, std::ios::binary);
  std::stringstream text;
  text << stream.rdbuf();
  if (!stream) throw Mistake({}, fmt::format("{}: the file cannot be read; look at its permissions", path.string()));
  return source_of(path.string(), text.str());
}

}  // namespace heatwork::trade
