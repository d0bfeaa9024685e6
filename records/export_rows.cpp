#include "records/export_rows.h"

#include <limits>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "records/store_error.h"

namespace heatwork::records {

namespace {

/// Writes an object member by member, in the order of the calls.
class Line {
 public:
  explicit Line(std::string_view row) { text("row", row); }

  Line& text(const char* key, std::string_view value) {
    begin(key);
    try {
      line_ += nlohmann::json(value).dump();
    } catch (const nlohmann::json::exception&) {
      throw StoreError(StoreProblem::damaged,
                       "The store is damaged: the text of “" + std::string(key) + "” in " + said() + " is no UTF-8.");
    }
    return *this;
  }
  Line& number(const char* key, std::int64_t value) {
    begin(key);
    line_ += std::to_string(value);
    return *this;
  }
  std::string end(const char* with) {
    line_ += '}';
    line_ += with;
    return std::move(line_);
  }

 private:
  void begin(const char* key) {
    line_ += line_.empty() ? "{\"" : ",\"";
    line_ += key;
    line_ += "\":";
  }
  /// The row as far as it is written, which names it.
  [[nodiscard]] std::string said() const { return line_.substr(1, 200); }

  std::string line_;
};

/// Takes members out of an object; what does not fit is refused by comparing the line afterwards, so only types are looked at here.
class Members {
 public:
  explicit Members(nlohmann::json object) : object_(std::move(object)) {}

  std::string text(const char* key) {
    const auto found = object_.find(key);
    if (found == object_.end()) throw std::invalid_argument("“" + std::string(key) + "” is missing");
    if (!found->is_string()) throw std::invalid_argument("“" + std::string(key) + "” is no text");
    std::string& text = found->get_ref<std::string&>();
    if (text.find('\0') != std::string::npos) throw std::invalid_argument("“" + std::string(key) + "” holds a NUL");
    return std::move(text);
  }
  std::int64_t number(const char* key) {
    const auto found = object_.find(key);
    if (found == object_.end()) throw std::invalid_argument("“" + std::string(key) + "” is missing");
    if (!found->is_number_integer()) throw std::invalid_argument("“" + std::string(key) + "” is no whole number");
    const bool too_large = found->is_number_unsigned() && found->get<std::uint64_t>() > INT64_MAX;
    if (too_large) throw std::invalid_argument("“" + std::string(key) + "” is too large");
    return found->get<std::int64_t>();
  }
  int small_number(const char* key) {
    const std::int64_t value = number(key);
    if (value < 0 || value > std::numeric_limits<int>::max()) throw std::invalid_argument("“" + std::string(key) + "” is out of range");
    return static_cast<int>(value);
  }

 private:
  nlohmann::json object_;
};

Document document_from(Members& members) {
  return {members.text("kind"), members.text("id"),    members.small_number("version"),
          members.text("body"), members.text("typed"), members.text("hash")};
}

Entry entry_from(Members& members) {
  Entry entry;
  entry.sequence = members.number("sequence");
  entry.who = {members.text("person"), members.text("known_by"), members.text("at_utc"), members.text("zone")};
  entry.action = members.text("action");
  entry.kind = members.text("kind");
  entry.id = members.text("id");
  entry.version = members.small_number("version");
  entry.document_hash = members.text("document_hash");
  entry.replaced_hash = members.text("replaced_hash");
  entry.reason = members.text("reason");
  entry.previous = members.text("previous");
  entry.hash = members.text("hash");
  return entry;
}

ExportEnd end_from(Members& members) {
  return {members.number("about"), members.number("documents"), members.number("entries"), members.number("personal"),
          members.number("photos")};
}

ExportRow row_from(Members members) {
  const std::string row = members.text("row");
  if (row == "about") return AboutRow{members.text("key"), members.text("value")};
  if (row == "document") return document_from(members);
  if (row == "entry") return entry_from(members);
  if (row == "personal") return PersonalRow{members.text("code"), members.text("salt"), members.text("body")};
  if (row == "photo") return PhotoRow{members.text("hash"), members.text("bytes_base64")};
  if (row == "end") return end_from(members);
  throw std::invalid_argument("“row” is “" + row + "”; it is about, document, entry, personal, photo or end");
}

/// The line without what follows its object, so that the object alone is read.
std::string_view object_of(std::string_view line) {
  for (const std::string_view end : {std::string_view(","), std::string_view("]}")}) {
    if (line.ends_with(end) && line.size() > end.size()) return line.substr(0, line.size() - end.size());
  }
  throw std::invalid_argument("it ends neither with a comma nor with the brackets of the last line");
}

}  // namespace

std::string export_opening() {
  return R"({"what":"heatwork store","format":)" + std::to_string(export_format) + R"(,"rows":[)";
}

std::string export_line(const AboutRow& row) {
  return Line("about").text("key", row.key).text("value", row.value).end(",");
}

std::string export_line(const Document& row) {
  return Line("document")
      .text("kind", row.kind)
      .text("id", row.id)
      .number("version", row.version)
      .text("body", row.body)
      .text("typed", row.typed)
      .text("hash", row.hash)
      .end(",");
}

std::string export_line(const Entry& row) {
  return Line("entry")
      .number("sequence", row.sequence)
      .text("at_utc", row.who.at_utc)
      .text("zone", row.who.zone)
      .text("person", row.who.person)
      .text("known_by", row.who.known_by)
      .text("action", row.action)
      .text("kind", row.kind)
      .text("id", row.id)
      .number("version", row.version)
      .text("document_hash", row.document_hash)
      .text("replaced_hash", row.replaced_hash)
      .text("reason", row.reason)
      .text("previous", row.previous)
      .text("hash", row.hash)
      .end(",");
}

std::string export_line(const PersonalRow& row) {
  return Line("personal").text("code", row.code).text("salt", row.salt).text("body", row.body).end(",");
}

std::string export_line(const PhotoRow& row) {
  return Line("photo").text("hash", row.hash).text("bytes_base64", row.bytes_base64).end(",");
}

std::string export_line(const ExportEnd& end) {
  return Line("end")
      .number("about", end.about)
      .number("documents", end.documents)
      .number("entries", end.entries)
      .number("personal", end.personal)
      .number("photos", end.photos)
      .end("]}");
}

ExportRow read_export_line(std::string_view line) {
  nlohmann::json object;
  try {
    object = nlohmann::json::parse(object_of(line));
  } catch (const nlohmann::json::exception&) {
    throw std::invalid_argument("it is no JSON object followed by a comma");
  }
  if (!object.is_object()) throw std::invalid_argument("it is no JSON object");
  ExportRow row = row_from(Members(std::move(object)));
  if (std::visit([](const auto& read) { return export_line(read); }, row) != line) {
    throw std::invalid_argument("it is not written as an export writes it: keys, their order and every sign are fixed");
  }
  return row;
}

}  // namespace heatwork::records
