#include "server/page_files.h"

#include <sodium.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <utility>
#include <vector>

#include "desk/errors.h"
#include "server/answer.h"

/// The table and all files, laid in by cmake/page.cmake: the number of files, then six offsets and lengths a file.
extern "C" const std::uint64_t heatwork_page[];

namespace heatwork::server {
namespace {

std::string_view type_of(std::string_view path) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 10> types{{{".html", "text/html; charset=utf-8"},
                                                                                 {".js", "text/javascript; charset=utf-8"},
                                                                                 {".css", "text/css; charset=utf-8"},
                                                                                 {".svg", "image/svg+xml"},
                                                                                 {".json", "application/json"},
                                                                                 {".webmanifest", "application/manifest+json"},
                                                                                 {".png", "image/png"},
                                                                                 {".ico", "image/x-icon"},
                                                                                 {".woff2", "font/woff2"},
                                                                                 {".txt", "text/plain; charset=utf-8"}}};
  const auto found = std::find_if(types.begin(), types.end(), [&](const auto& type) { return path.ends_with(type.first); });
  return found == types.end() ? "application/octet-stream" : found->second;
}

std::string etag_of(std::string_view bytes) {
  std::array<unsigned char, 16> hash{};
  crypto_generichash(hash.data(), hash.size(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(), nullptr, 0);
  std::array<char, 33> text{};
  sodium_bin2hex(text.data(), text.size(), hash.data(), hash.size());
  return '"' + std::string(text.data()) + '"';
}

std::vector<PageFile> laid_in_files() {
  const char* start = reinterpret_cast<const char*>(heatwork_page);
  std::vector<PageFile> files(heatwork_page[0]);
  const std::uint64_t* row = heatwork_page + 1;
  for (PageFile& file : files) {
    file.path = {start + row[0], row[1]};
    file.bytes = {start + row[2], row[3]};
    file.gzip = {start + row[4], row[5]};
    file.type = type_of(file.path);
    file.etag = etag_of(file.bytes);
    file.lasting = file.path.starts_with("assets/") || file.path.starts_with("sign-in/assets/");
    row += 6;
  }
  return files;
}

/// Files of their own names, and nothing else, lie under these.
bool is_of_files(std::string_view name) {
  return name.starts_with("assets/") || name.starts_with("sign-in/");
}

/// "firing" of "firing/crown-16": the page itself says where there is no such screen.
bool begins_as_screen(std::string_view name) {
  const std::string_view first = name.substr(0, std::min(name.find('/'), name.size()));
  return name.empty() ||
         (!first.empty() && std::all_of(first.begin(), first.end(), [](char letter) { return letter >= 'a' && letter <= 'z'; }));
}

/// A file by its name; "/sign-in" is the index of its folder; any other path is a screen of the page, "/firing/crown-16" for instance,
/// which the page itself finds. nullptr where there is no such file.
const PageFile* file_of(std::span<const PageFile> files, std::string_view path) {
  const std::string_view name = path.substr(std::min<std::size_t>(1, path.size()));
  const auto named = [&](std::string_view wanted) {
    const auto file = std::find_if(files.begin(), files.end(), [&](const PageFile& each) { return each.path == wanted; });
    return file == files.end() ? nullptr : &*file;
  };
  if (name == "sign-in" || name == "sign-in/") return named("sign-in/index.html");
  if (const PageFile* file = named(name)) return file;
  return is_of_files(name) || !begins_as_screen(name) ? nullptr : named("index.html");
}

Answer without_page() {
  Answer answer;
  answer.status = 501;
  answer.type = "text/plain; charset=utf-8";
  answer.body =
      "This Heatwork was built without its page. In the folder of its sources: \"cd page && npm ci && npm run build\", then build it anew "
      "(./run serve does both).\n";
  return answer;
}

}  // namespace

std::span<const PageFile> page_files() {
  static const std::vector<PageFile> files = laid_in_files();
  return files;
}

bool is_of_page(std::string_view path) {
  return path != "/health" && path != "/api" && !path.starts_with("/api/");
}

Answer page_answer(std::string_view path, std::string_view accepts, std::string_view known) {
  const std::span<const PageFile> files = page_files();
  if (files.empty()) return without_page();
  const PageFile* file = file_of(files, path);
  if (file == nullptr) return refusal(desk::ErrorWord::unknown_name, "The page has no such file.");
  Answer answer;
  answer.headers = {{"ETag", file->etag},
                    {"Cache-Control", file->lasting ? "public, max-age=31536000, immutable" : "no-cache"},
                    {"Vary", "Accept-Encoding"}};
  answer.type = file->type;
  if (!known.empty() && known.find(file->etag) != std::string_view::npos) {
    answer.status = 304;
    return answer;
  }
  const bool packed = accepts.find("gzip") != std::string_view::npos && file->gzip.size() < file->bytes.size();
  if (packed) answer.headers.emplace_back("Content-Encoding", "gzip");
  answer.body = packed ? file->gzip : file->bytes;
  return answer;
}

}  // namespace heatwork::server
