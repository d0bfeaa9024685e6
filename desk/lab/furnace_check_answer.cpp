#include "desk/lab/furnace_check_answer.h"

#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "desk/errors.h"
#include "desk/lab/questions.h"
#include "quantity/read.h"
#include "trade/choice_words.h"
#include "trade/keyed_values.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

using furnace_care::CheckLevel;
using trade::CheckOf;

/// Temperatures of firings the error is told for. [°C]
constexpr double first_told_C = 600, last_told_C = 950, told_step_C = 50;

JsonObject question_json(const furnace_care::Question& question) {
  JsonList choices;
  for (const std::string& choice : question.choices) choices.push_back(choice);
  return {{"key", question.key},
          {"sentence", question.sentence},
          {"why", JsonObject{{"sentence", question.why}}},
          {"choices", std::move(choices)},
          {"example", question.example},
          {"place", text_or_null(question.place)},
          {"told_by", text_or_null(question.told_by)}};
}

/// The keys an answer may stand under: of a certificate its correction with uncertainty and day, or in place of it a class.
std::vector<std::string> keys_of(const std::string& question) {
  if (question != "probe.correction") return {question};
  return {"probe.correction", "probe.correction_u", "probe.certified", "probe.tolerance_class"};
}

/// Its answers as one would give them again.
JsonObject answers_of(const std::string& question, const std::vector<trade::KeyedValue>& values) {
  JsonObject answers;
  for (const std::string& key : keys_of(question))
    for (const trade::KeyedValue& value : values) {
      if (value.key != key) continue;
      const std::string& text = value.typed.empty() ? value.text : value.typed;
      answers.push_back({key, text == "true" ? "yes" : text == "false" ? "no" : text});
    }
  return answers;
}

double rounded(double value, int digits) {
  const double scale = std::pow(10, digits);
  return std::round(value * scale) / scale + 0.0;
}

Json source_json(const furnace_care::BudgetPart& part) {
  return JsonObject{{"sentence", part.sentence},
                    {"standard_uncertainty_K", rounded(part.standard_uncertainty_K, 3)},
                    {"standing", trade::choice_word(part.standing)},
                    {"source", part.source}};
}

}  // namespace

Json number_or_null(const std::optional<double>& number) {
  return number && std::isfinite(*number) ? Json(*number) : Json();
}

JsonList sentences_json(const std::vector<std::string>& sentences) {
  JsonList list;
  for (const std::string& sentence : sentences) list.push_back(JsonObject{{"sentence", sentence}});
  return list;
}

CheckAnswer::CheckAnswer(const FurnaceCheckDraft& draft) : json_{{"format", 1}, {"furnace", draft.furnace.name}} {
  line("Furnace", draft.furnace.name);
  member("check", draft.check.name);
  member("of", trade::choice_word(draft.check.of.value));
  JsonList going_on;
  for (const std::string& name : draft.going_on) {
    going_on.push_back(name);
    line("Begun", fmt::format("check {}, not finished yet: go on with it, or finish this one", name));
  }
  member("going_on", std::move(going_on));
}

void CheckAnswer::line(std::string_view what, const std::string& says) {
  text_ += care_line(what, says);
}

void CheckAnswer::member(std::string key, Json value) {
  json_.push_back({std::move(key), std::move(value)});
}

void CheckAnswer::question(const std::optional<furnace_care::Question>& question) {
  member("question", question ? Json(question_json(*question)) : Json());
  if (!question) return;
  line("Question", question->sentence);
  line("", question->why);
  std::string answered_by = question->choices.empty() ? fmt::format("{}, such as \"{}\"", question->key, question->example)
                                                      : fmt::format("{}: {}", question->key, fmt::join(question->choices, ", "));
  if (!question->or_else.empty()) answered_by += "; or " + question->or_else;
  line("", answered_by);
}

void CheckAnswer::answered(const std::vector<furnace_care::Question>& questions, const FurnaceCheckDraft& draft) {
  const auto values = trade::keyed_values(draft.check);
  JsonList list;
  std::string told;
  for (const auto& question : questions) {
    JsonObject json = question_json(question);
    const JsonObject answers = answers_of(question.key, values);
    for (const JsonMember& answer : answers) told += fmt::format("{}{}: {}", told.empty() ? "" : "; ", answer.key, *answer.value.text());
    json.push_back({"values", answers});
    list.push_back(std::move(json));
  }
  member("answered", std::move(list));
  if (!told.empty()) line("Answered", told);
}

void CheckAnswer::judged(const std::optional<furnace_care::DisplayError>& error) {
  if (!error) return member("judged", Json());
  const double half_K = furnace_care::coverage * error->standard_uncertainty_K;
  member("judged", JsonObject{{"error_K", error->error_K},
                              {"standard_uncertainty_K", error->standard_uncertainty_K},
                              {"low_K", error->error_K - half_K},
                              {"high_K", error->error_K + half_K}});
}

void CheckAnswer::level(CheckLevel level, const std::string& sentence) {
  member("level", furnace_care::word(level));
  member("sentence", sentence);
  if (level != CheckLevel::going_on) line("Furnace is", fmt::format("{}. {}", furnace_care::word(level), sentence));
}

void CheckAnswer::limit(std::string_view key, double limit, bool of_lab) {
  member(std::string(key), limit);
  member("limit_from", of_lab ? "lab" : "Heatwork");
}

void CheckAnswer::budget(const furnace_care::Budget& budget) {
  JsonList parts;
  for (const auto& part : budget) parts.push_back(source_json(part));
  member("budget", std::move(parts));
  bool is_first = true;
  for (const auto& part : budget) {
    line(is_first ? "Unsure by" : "",
         fmt::format("{:.2f} K  {} ({}; {})", part.standard_uncertainty_K, part.sentence, trade::choice_word(part.standing), part.source));
    is_first = false;
  }
  if (!budget.empty()) line("", fmt::format("{:.1f} K  together, as root of the squares", furnace_care::combined_K(budget)));
}

void CheckAnswer::remarks(const std::vector<std::string>& remarks) {
  member("remarks", sentences_json(remarks));
  for (const std::string& remark : remarks) line("Mind", remark);
}

void CheckAnswer::then(const std::vector<std::string>& sentences) {
  member("then", sentences_json(sentences));
  for (std::size_t i = 0; i < sentences.size(); ++i) line(i == 0 ? "Then" : "", sentences[i]);
}

void CheckAnswer::correction(const FurnaceCheckDraft& draft, std::optional<double> error_K, bool is_beyond_use) {
  if (!error_K) {
    member("keying", Json());
    member("ways", JsonList{});
    return;
  }
  const auto keying = furnace_care::keying_for(draft.furnace, keyed_K(draft), *error_K);
  member("keying", JsonObject{{"keyed_now_K", keying.keyed_now_K},
                              {"to_key_K", keying.to_key_K},
                              {"left_K", rounded(keying.left_K, 2)},
                              {"convention", trade::choice_word(draft.furnace.correction_convention.value)},
                              {"sentence", keying.sentence}});
  JsonList ways;
  for (const auto& way : furnace_care::ways_with(draft.furnace, keyed_K(draft), *error_K)) {
    if (is_beyond_use && way.decision != "corrected") continue;
    ways.push_back(JsonObject{{"word", way.word}, {"decision", way.decision}, {"sentences", sentences_json(way.sentences)}});
    for (std::size_t i = 0; i < way.sentences.size(); ++i)
      line(i == 0 ? (way.decision == "corrected" ? "Correct it" : "Or allow") : "", way.sentences[i]);
  }
  member("ways", std::move(ways));
}

void CheckAnswer::errors_at(const std::optional<furnace_care::ErrorLine>& line_found) {
  if (!line_found) {
    member("line", Json());
    return;
  }
  JsonList at;
  std::string told;
  for (double C = first_told_C; C <= last_told_C; C += told_step_C) {
    const auto error = line_found->at(C);
    at.push_back(JsonObject{{"temperature_C", C},
                            {"error_K", rounded(error.error_K, 2)},
                            {"standard_uncertainty_K", rounded(error.standard_uncertainty_K, 2)},
                            {"low_K", rounded(error.low_K, 2)},
                            {"high_K", rounded(error.high_K, 2)}});
    if (C == 700 || C == 800 || C == 900)
      told +=
          fmt::format("{}{:.0f} °C {:+.1f} K (± {:.1f} K)", told.empty() ? "" : ", ", C, error.error_K, 2 * error.standard_uncertainty_K);
  }
  member("line", JsonObject{{"sentence", line_found->sentence},
                            {"is_line", line_found->is_line},
                            {"findings", static_cast<double>(line_found->found.size())},
                            {"agreement", rounded(line_found->agreement, 2)},
                            {"at", std::move(at)}});
  line("Elsewhere", told);
  line("", line_found->sentence);
}

void CheckAnswer::since_good(const AskedLab& asked, const FurnaceCheckDraft& draft, CheckLevel level) {
  if (level != CheckLevel::not_good) {
    member("fired_since_good", Json());
    return;
  }
  const CheckOf of = draft.check.of.value;
  // Wire and thermocouple both tell whether the display was true.
  const bool of_display = of == CheckOf::temperature || of == CheckOf::thermocouple;
  const std::string kind = of_display ? kind_of_last_good(draft.earlier) : std::string(trade::choice_word(of));
  const CareAnswer fired = pieces_since_good_check(asked, draft.furnace.name, kind, 1);
  member("fired_since_good", fired.json);
  const double* count = fired.json.find("count")->number();
  const std::string* last = fired.json.find("check")->text();
  const std::string_view none =
      of_display ? "the first firing: no good check is kept" : "the first firing: no good check of this kind is kept";
  line("Look at", fmt::format("{} fired since {}", counted(static_cast<std::int64_t>(*count), "piece", "pieces"),
                              last == nullptr ? std::string(none) : "good check " + *last));
}

void CheckAnswer::kept(const std::optional<records::Kept>& kept, const FurnaceCheckDraft& draft) {
  member("kept", kept.has_value());
  member("version", draft.version == 0 ? Json() : Json(draft.version));
  member("finished", trade::is_finished(draft.check));
  member("decision", draft.check.decision ? Json(trade::choice_word(draft.check.decision->value)) : Json());
  JsonList documents;
  if (kept)
    for (const auto& document : kept->documents) {
      documents.push_back(JsonObject{{"kind", document.kind}, {"name", document.id}, {"version", document.version}});
      line("Kept", fmt::format("{} {}, version {}", document.kind, document.id, document.version));
    }
  member("documents", std::move(documents));
  if (kept) member("head", kept->head);
  if (!kept) line("Kept", "nothing");
}

CareAnswer CheckAnswer::done(bool wrong) {
  return {std::move(text_), Json(std::move(json_)), wrong};
}

void set_outcome(trade::Check& check, CheckLevel level) {
  check.finished.reset();
  check.cannot_tell.reset();
  check.good = level == CheckLevel::good;
  if (level == CheckLevel::going_on) check.finished.emplace().value = false;
  if (level == CheckLevel::cannot_tell) check.cannot_tell.emplace().value = true;
}

void set_error(trade::Check& check, const std::optional<furnace_care::DisplayError>& found) {
  check.error.reset();
  check.standard_uncertainty.reset();
  check.error_at.reset();
  if (!found) return;
  check.error.emplace().value = quantity::canonical(quantity::kelvins(found->error_K));
  check.standard_uncertainty.emplace().value = quantity::canonical(quantity::kelvins(found->standard_uncertainty_K));
  check.error_at.emplace().value = quantity::canonical(quantity::Temperature::celsius(found->true_C));
}

std::optional<trade::CheckDecision> decision_of(const trade::Check& check) {
  return check.decision ? std::optional(check.decision->value) : std::nullopt;
}

void decide(FurnaceCheckDraft& draft, const std::string& decision, std::optional<double> error_K) {
  if (decision.empty()) return;
  const auto word = trade::choice_of<trade::CheckDecision>(decision);
  if (!word)
    throw Failure(ErrorWord::bad_value, fmt::format("\"{}\" is no decision; allowed are {}.", trade::for_message(decision),
                                                    fmt::join(trade::choices<trade::CheckDecision>(), ", ")));
  if (!trade::is_finished(draft.check)) throw Failure(ErrorWord::conflict, "The check still goes on; it is decided once it is finished.");
  draft.check.decision.emplace().value = *word;
  draft.check.keyed_after.reset();
  if (*word != trade::CheckDecision::corrected) return;
  if (!error_K) throw Failure(ErrorWord::conflict, "This check found no error of the display that a correction could mend.");
  draft.check.keyed_after.emplace().value = quantity::kelvins(furnace_care::keying_for(draft.furnace, keyed_K(draft), *error_K).to_key_K);
}

}  // namespace heatwork::desk
