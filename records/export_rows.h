// The rows of the export as lines of JSON, and the strict way back: a line that is not exactly what the row writes is refused.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>

#include "records/rows.h"

namespace heatwork::records {

/// Of the text; not of the tables.
inline constexpr int export_format = 1;

/// The last line: how many rows of each sort came before it.
struct ExportEnd {
  std::int64_t about = 0, documents = 0, entries = 0, personal = 0, photos = 0;
  bool operator==(const ExportEnd&) const = default;
};

std::string export_opening();  ///< first line, without line end
/// One line each, with what ends it (a comma; for the last one the brackets), without line end.
/// Errors: StoreError damaged where a text is no UTF-8.
std::string export_line(const AboutRow& row);
std::string export_line(const Document& row);
std::string export_line(const Entry& row);
std::string export_line(const PersonalRow& row);
std::string export_line(const PhotoRow& row);
std::string export_line(const ExportEnd& end);

using ExportRow = std::variant<AboutRow, Document, Entry, PersonalRow, PhotoRow, ExportEnd>;

/// Reads a line after the first. Errors: std::invalid_argument with what is wrong, as the end of a sentence.
ExportRow read_export_line(std::string_view line);

}  // namespace heatwork::records
