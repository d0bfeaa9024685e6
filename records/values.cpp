#include "records/values.h"

#include <fmt/format.h>

#include <algorithm>
#include <regex>

#include "records/store_error.h"

namespace heatwork::records {

namespace {

constexpr std::size_t longest_name = 200;       ///< bytes
constexpr std::size_t longest_reason = 10'000;  ///< bytes
constexpr std::size_t longest_words = 100'000;  ///< bytes

[[noreturn]] void refuse(const std::string& what, const std::string& why) {
  throw StoreError(StoreProblem::bad_value, fmt::format("{} cannot be kept: {}. Nothing was kept.", what, why));
}

void check_text(const std::string& what, std::string_view text, std::size_t longest) {
  if (text.size() > longest) refuse(what, fmt::format("it has {} bytes, at most {} are allowed", text.size(), longest));
  if (text.find('\0') != std::string_view::npos) refuse(what, "it holds a NUL byte");
  if (!is_utf8(text)) refuse(what, "it is no UTF-8");
}

void check_line(const std::string& what, std::string_view text, std::size_t longest) {
  check_text(what, text, longest);
  const auto control = [](char letter) { return static_cast<unsigned char>(letter) < 0x20 || letter == 0x7f; };
  if (std::any_of(text.begin(), text.end(), control)) refuse(what, "it holds a control character");
}

void check_name(const std::string& what, std::string_view text) {
  if (text.empty()) refuse(what, "it is empty");
  check_line(what, text, longest_name);
}

std::string called(const NewVersion& version) {
  return fmt::format("The {} \"{}\"", version.kind, version.id);
}

void check(const NewVersion& version) {
  check_name("The kind of a document", version.kind);
  check_name(fmt::format("The name of a {}", version.kind), version.id);
  if (version.after < 0 || version.after >= INT32_MAX)
    refuse(called(version), fmt::format("it was made from version {}, and versions count from 1", version.after));
  check_name(called(version) + ": what was done to it", version.action);
  check_text(called(version) + ": its reason", version.reason, longest_reason);
  check_text(called(version), version.body, largest_document);
  check_text(called(version) + " as it was typed", version.typed, largest_document);
}

}  // namespace

bool is_utf8(std::string_view text) {
  const auto byte = [&](std::size_t at) { return at < text.size() ? static_cast<unsigned char>(text[at]) : 0U; };
  const auto follows = [&](std::size_t at) { return (byte(at) & 0xC0U) == 0x80U; };
  for (std::size_t at = 0; at < text.size();) {
    const unsigned first = byte(at), second = byte(at + 1);
    if (first < 0x80) {
      ++at;
    } else if (first >= 0xC2 && first <= 0xDF && follows(at + 1)) {
      at += 2;
    } else if (first >= 0xE0 && first <= 0xEF && follows(at + 1) && follows(at + 2) && !(first == 0xE0 && second < 0xA0) &&
               !(first == 0xED && second > 0x9F)) {
      at += 3;
    } else if (first >= 0xF0 && first <= 0xF4 && follows(at + 1) && follows(at + 2) && follows(at + 3) &&
               !(first == 0xF0 && second < 0x90) && !(first == 0xF4 && second > 0x8F)) {
      at += 4;
    } else {
      return false;
    }
  }
  return true;
}

void check(const Who& who) {
  static const std::regex moment(R"(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,9})?Z)");
  check_name("A change without a person", who.person);
  check_line("How the person is known", who.known_by, longest_name);
  check_line("The time zone", who.zone, longest_name);
  if (!std::regex_match(who.at_utc, moment))
    refuse("A change", fmt::format("its time \"{}\" is not like 2026-11-25T17:11:04.123Z", who.at_utc));
}

void check(const Change& change) {
  check(change.who);
  for (const NewVersion& version : change.documents) check(version);
  for (const Personal& personal : change.personal) {
    check_name("The code of a person", personal.code);
    check_text(fmt::format("Personal data of {}", personal.code), personal.body, largest_document);
    check_text(fmt::format("The reason for the personal data of {}", personal.code), personal.reason, longest_reason);
  }
  for (const Photo& photo : change.photos) {
    if (photo.bytes.empty()) refuse("A photo", "it is empty");
    if (photo.bytes.size() > largest_photo)
      refuse("A photo", fmt::format("it has {} bytes, at most {} are allowed", photo.bytes.size(), largest_photo));
    check_text("The reason for a photo", photo.reason, longest_reason);
  }
  for (const std::string& hash : change.erase_photos) check_name("The name of a photo", hash);
  check_text("The reason to erase photos", change.reason_to_erase, longest_reason);
}

void check(const Document& document, const Index& index) {
  const std::string of = fmt::format("What the {} \"{}\" is found by", document.kind, document.id);
  check_text(of, index.label, longest_words);
  check_text(of, index.state, longest_name);
  check_text(of, index.words, longest_words);
  for (const Use& use : index.uses)
    for (const std::string* name : {&use.piece, &use.furnace, &use.program, &use.lot}) check_line(of, *name, 2 * longest_name);
  for (const Due& due : index.dues) {
    check_line(of, due.on, longest_name);
    check_text(of, due.what, longest_reason);
  }
}

}  // namespace heatwork::records
