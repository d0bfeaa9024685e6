// The files of the page, carried in the binary.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "server/route.h"

namespace heatwork::server {

struct PageFile {
  std::string_view path;  ///< "index.html", "assets/index-4f2a.js"
  std::string_view type;  ///< "text/html; charset=utf-8"
  std::string_view bytes, gzip;
  std::string etag;
  bool lasting = false;  ///< its name changes with its bytes
};

/// Empty in a build without the page.
std::span<const PageFile> page_files();

/// Whether this path is the page's to answer: all but /api and /health.
bool is_of_page(std::string_view path);

/// The file for a path, or 404; in a build without the page a plain sentence how to build it. `accepts`: the header Accept-Encoding;
/// `known`: the header If-None-Match.
Answer page_answer(std::string_view path, std::string_view accepts, std::string_view known);

}  // namespace heatwork::server
