#include "desk/lab/questions.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <vector>

#include "desk/errors.h"
#include "desk/lab/furnace_checks.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/local_time.h"
#include "desk/lab/pages.h"
#include "desk/lab/store_place.h"
#include "desk/lab/store_shelf.h"
#include "trade/choice_words.h"
#include "trade/records.h"

namespace heatwork::desk {
namespace {

using records::PieceQuery;
using records::PieceRow;
using trade::Noun;

/// The words of a question and what else its answer says before its pieces.
struct Question {
  Noun noun = Noun::lot;
  std::string name;  ///< as asked for, with its version
  std::string text;
  JsonObject json;
};

/// The case of a piece as it is kept: a key begins a line, text has no line breaks, and the piece's own keys stand before its sections.
/// A page has a thousand pieces; to read them whole takes longer than all else of its answer.
std::string case_in(std::string_view kept) {
  constexpr std::string_view key = "\ncase = \"";
  const std::string_view own = kept.substr(0, kept.find("\n[["));
  const auto from = own.find(key);
  if (from == std::string_view::npos) return "";
  const std::string_view value = own.substr(from + key.size());
  return std::string(value.substr(0, value.find('"')));
}

/// Fills in the first case by name that names a piece which itself names none: people write it at either of the two.
void add_from_cases(records::Store& store, std::map<std::string, std::string>& cases) {
  std::vector<std::string> without;
  for (const auto& [piece, of_case] : cases)
    if (of_case.empty()) without.push_back(piece);
  if (without.empty()) return;
  constexpr auto kind = trade::word(Noun::dental_case);
  std::map<std::string, trade::Case> named;
  for (const records::Document& one : store.newest(kind, store.naming(kind, without)))
    named.emplace(one.id, read_kept<trade::Case>(kept_source(one)));
  for (const auto& [name, one] : named)
    for (const auto& piece : one.pieces)
      if (const auto found = cases.find(piece.value); found != cases.end() && found->second.empty()) found->second = name;
}

/// By the name of the piece.
std::map<std::string, std::string> cases_of(records::Store& store, const std::vector<PieceRow>& rows) {
  std::vector<std::string> names;
  for (const PieceRow& row : rows) names.push_back(row.piece);
  std::map<std::string, std::string> cases;
  for (const std::string& name : names) cases[name];
  for (const records::Document& piece : store.newest(trade::word(Noun::piece), names)) cases[piece.id] = case_in(piece.body);
  add_from_cases(store, cases);
  return cases;
}

struct Line {
  std::string piece, of_case, first, last, times;
};

std::string as_table(const std::vector<Line>& lines) {
  std::size_t piece = 0, of_case = 0;
  for (const Line& line : lines) {
    piece = std::max(piece, line.piece.size());
    of_case = std::max(of_case, line.of_case.size());
  }
  std::string text;
  for (const Line& line : lines)
    text +=
        fmt::format("{:<{}}  {:<{}}  {:<16}  {:<16}  {:>5}\n", line.piece, piece, line.of_case, of_case, line.first, line.last, line.times);
  return text;
}

/// Some piece met it at some time, or a check is of it.
bool is_named(records::Store& store, PieceQuery query) {
  query.from_ms = INT64_MIN;
  query.to_ms = INT64_MAX;
  return store.pieces(query).count > 0 || (query.by == PieceQuery::By::furnace && store.of_furnace(query.value).count > 0);
}

CareAnswer answered(const StorePlace& place, records::Store& store, const PieceQuery& query, Question question) {
  const auto page = store.pieces(query);
  const AskedVersion version = read_asked_version(question.noun, question.name);
  const bool kept = store.find(trade::word(question.noun), version.name, version.version).has_value();
  // Where nothing names it either, the name is a slip.
  if (!kept && page.count == 0 && !is_named(store, query)) static_cast<void>(kept_document(store, question.noun, version));
  if (!kept)
    question.text += care_line("", fmt::format("No {} is kept under this name; other records name it.", trade::word(question.noun)));
  std::vector<Line> lines{{"PIECE", "CASE", "FIRST", "LAST", "TIMES"}};
  JsonList json;
  auto cases = cases_of(store, page.rows);
  for (const PieceRow& row : page.rows) {
    const std::string of_case = cases[row.piece];
    lines.push_back({row.piece, of_case.empty() ? "-" : of_case, local_text(row.first_ms, place.zone), local_text(row.last_ms, place.zone),
                     std::to_string(row.times)});
    json.push_back(JsonObject{{"piece", row.piece},
                              {"case", of_case.empty() ? Json(nullptr) : Json(of_case)},
                              {"first", utc_text(row.first_ms)},
                              {"last", utc_text(row.last_ms)},
                              {"times", static_cast<double>(row.times)}});
  }
  question.text += care_line("Pieces", page.count == 0 ? "none" : page_in_words(page.count, page.page, "in order of first meeting"));
  question.text += care_line("Times", fmt::format("in the zone {}", place.zone));
  if (!page.rows.empty()) question.text += "\n" + as_table(lines);
  JsonObject whole{{"format", 1}, {trade::file_word(question.noun), question.name}, {"kept", kept}, {"zone", place.zone}};
  for (auto& member : question.json) whole.push_back(std::move(member));
  whole.push_back({"count", static_cast<double>(page.count)});
  whole.push_back({"page", page.page});
  whole.push_back({"pages", static_cast<double>(pages_of(page.count))});
  whole.push_back({"pieces", std::move(json)});
  return {question.text, std::move(whole), false};
}

Question question_of(Noun noun, const std::string& name) {
  std::string what(trade::word(noun));
  what.front() = static_cast<char>(what.front() - 'a' + 'A');
  return {noun, name, care_line(what, name), {}};
}

/// The bare name of what has no version that a piece would meet.
void check_bare(Noun noun, const std::string& name) {
  if (read_asked_version(noun, name).version)
    throw Failure(ErrorWord::bad_value, fmt::format("Pieces meet a {} whatever its version: name it without \"@\".", trade::word(noun)));
}

struct CheckFound {
  trade::Check check;
  std::int64_t at_ms = 0;
};

/// The newest good one of this kind; a furnace has few, and the newest come first.
std::optional<CheckFound> last_good(records::Store& store, const std::string& furnace, std::string_view of) {
  std::optional<CheckFound> found;
  walk_checks(store, {furnace, "good"}, [&](const CheckRead& read) {
    if (trade::choice_word(read.check->of.value) == of) found = CheckFound{*read.check, read.at_ms};
    return !found;
  });
  return found;
}

void check_kind(const std::string& of) {
  if (trade::choice_of<trade::CheckOf>(of)) return;
  throw Failure(ErrorWord::bad_value, fmt::format("There is no check of \"{}\"; there are checks of: {}.", of,
                                                  fmt::join(trade::choices<trade::CheckOf>(), ", ")));
}

}  // namespace

CareAnswer pieces_of_lot(const AskedLab& asked, const std::string& lot, int page) {
  check_bare(Noun::lot, lot);
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    return answered(place, store, {PieceQuery::By::lot, lot, INT64_MIN, INT64_MAX, page}, question_of(Noun::lot, lot));
  });
}

CareAnswer pieces_of_furnace(const AskedLab& asked, const FurnaceWords& words) {
  check_bare(Noun::furnace, words.furnace);
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    PieceQuery query{PieceQuery::By::furnace, words.furnace, INT64_MIN, INT64_MAX, words.page};
    if (!words.from.empty()) query.from_ms = day_begins_ms(words.from, place.zone);
    if (!words.to.empty()) {
      day_begins_ms(words.to, place.zone);
      query.to_ms = day_begins_ms(day_after(words.to, 1), place.zone);
    }
    if (query.from_ms >= query.to_ms)
      throw Failure(ErrorWord::bad_value, fmt::format("The day {} is before {}: the first is the earlier one.", words.to, words.from));
    Question question = question_of(Noun::furnace, words.furnace);
    if (!words.from.empty() || !words.to.empty())
      question.text += care_line("Days", fmt::format("{} to {}, both counted in", words.from.empty() ? "the first" : words.from,
                                                     words.to.empty() ? "the last" : words.to));
    question.json = {{"from", words.from.empty() ? Json(nullptr) : Json(words.from)},
                     {"to", words.to.empty() ? Json(nullptr) : Json(words.to)}};
    records::Store store = opened(place, Reading::only);
    return answered(place, store, query, std::move(question));
  });
}

CareAnswer pieces_since_good_check(const AskedLab& asked, const std::string& furnace, const std::string& of, int page) {
  check_bare(Noun::furnace, furnace);
  check_kind(of);
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    const auto found = last_good(store, furnace, of);
    Question question = question_of(Noun::furnace, furnace);
    question.json = {{"check_of", of}, {"check", nullptr}, {"checked_at", nullptr}, {"checked_by", nullptr}};
    if (found) {
      question.text += care_line("Last good", fmt::format("check of {}: {}, {} by {}", of, found->check.name,
                                                          local_text(found->at_ms, place.zone), found->check.person));
      question.json = {
          {"check_of", of}, {"check", found->check.name}, {"checked_at", utc_text(found->at_ms)}, {"checked_by", found->check.person}};
    } else {
      question.text += care_line("Last good", fmt::format("none: no good check of {} is kept, so these are all its pieces", of));
    }
    return answered(place, store, {PieceQuery::By::furnace, furnace, found ? found->at_ms : INT64_MIN, INT64_MAX, page},
                    std::move(question));
  });
}

CareAnswer pieces_of_program(const AskedLab& asked, const std::string& program, int page) {
  const AskedVersion version = read_asked_version(Noun::program, program);
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    Question question = question_of(Noun::program, program);
    if (!version.version) question.text += care_line("", "in every version");
    return answered(place, store, {PieceQuery::By::program, program, INT64_MIN, INT64_MAX, page}, std::move(question));
  });
}

}  // namespace heatwork::desk
