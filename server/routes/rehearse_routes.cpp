#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "desk/errors.h"
#include "desk/lab/keep_edited.h"
#include "desk/lab/keep_rehearsal.h"
#include "desk/lab/live_rehearsals.h"
#include "desk/lab/told_in.h"
#include "report/firing_picture.h"
#include "report/rehearsal_json.h"
#include "report/stress_readings.h"
#include "server/answer.h"
#include "server/body.h"
#include "server/kinds.h"
#include "server/routes/routes.h"
#include "server/session.h"
#include "trade/mistake.h"

namespace heatwork::server {
namespace {

constexpr double latest_edit = 9007199254740991.0;  // 2^53 - 1: the last whole number JSON carries surely

desk::Manner manner_of(const Asked& asked) {
  return {asked.language, asked.units};
}

/// "new": {stage, pieces, tray, furnace, program, instruction, chamber} as values of a firing's file.
std::vector<trade::Edit> fresh_of(const Body& fresh) {
  std::vector<trade::Edit> edits;
  for (const std::string_view key : {"stage", "tray", "furnace", "program", "instruction"})
    if (auto value = fresh.text_if(key)) edits.push_back({std::string(key), std::move(value)});
  int place = 0;
  for (const desk::Json& each : fresh.list("pieces")) {
    const Body piece(fmt::format("piece {} of \"new\"", ++place), each, {"piece", "place"});
    edits.push_back({fmt::format("piece[{}].piece", place), piece.text("piece")});
    if (auto where = piece.text_if("place")) edits.push_back({fmt::format("piece[{}].place", place), std::move(where)});
  }
  for (const Values::Pair& value : fresh.texts_by_name("chamber")) edits.push_back({"chamber." + value.first, value.second});
  return edits;
}

/// "set" and "unset", by document, and "from", the versions they lie over.
std::vector<desk::TypedOver> typed_of(const Body& set, const Body& unset, const Body& from) {
  std::vector<desk::TypedOver> typed;
  const auto over = [&](const std::string& of) -> desk::TypedOver& {
    for (desk::TypedOver& each : typed)
      if (each.of == of) return each;
    return typed.emplace_back(desk::TypedOver{of, {}});
  };
  const auto members = [](const Body& body) { return body.json().object() != nullptr ? *body.json().object() : desk::JsonObject{}; };
  for (const desk::JsonMember& member : members(set))
    for (const Values::Pair& value : set.texts_by_name(member.key)) over(member.key).edits.push_back({value.first, value.second});
  for (const desk::JsonMember& member : members(unset))
    for (const std::string& key : unset.texts(member.key)) over(member.key).edits.push_back({key, std::nullopt});
  for (const desk::JsonMember& member : members(from)) {
    const auto typed_there = [&](const desk::TypedOver& each) { return each.of == member.key; };
    if (std::none_of(typed.begin(), typed.end(), typed_there))
      throw desk::Failure(desk::ErrorWord::bad_value,
                          fmt::format("\"from\" names \"{}\", over which nothing is typed.", trade::for_message(member.key)));
    over(member.key).from = from.whole(member.key, 1, most_versions);
  }
  return typed;
}

desk::EditedFiring firing_of(const Body& body) {
  desk::EditedFiring firing;
  firing.firing = body.text_or("firing", "");
  if (firing.firing.empty() == !body.has("new"))
    throw desk::Failure(desk::ErrorWord::bad_value, "Give \"firing\", the name of one that is kept, or \"new\", one of kept things.");
  if (body.has("new"))
    firing.fresh = fresh_of(body.object("new", {"stage", "pieces", "tray", "furnace", "program", "instruction", "chamber"}));
  firing.typed = typed_of(body.object("set"), body.object("unset"), body.object("from"));
  return firing;
}

/// What is asked of the stress: "with" computes it; "follows" leaves it out, and the picture keeps its place.
std::string stress_of(const Body& body) {
  return body.has("stress") ? body.word("stress", {"without", "follows", "with"}) : "without";
}

std::string picture_of(const Body& body, const desk::Rehearsed& rehearsed, const desk::Manner& manner) {
  report::PictureOptions options;
  options.stress_follows = stress_of(body) == "follows";
  options.scale = manner.scale;
  options.own_style = false;
  options.id = "firing-picture";
  if (body.has("pane")) {
    const Body pane = body.object("pane", {"width", "height"});
    options.pane_width_px = pane.number("width");
    options.pane_height_px = pane.has("height") ? pane.number("height") : 0;
    if (!(options.pane_width_px > 0 && options.pane_width_px < 10000 && options.pane_height_px >= 0 && options.pane_height_px < 10000))
      throw desk::Failure(desk::ErrorWord::bad_value, "\"pane\" is a width and a height in pixels, both below 10000.");
  }
  return report::firing_picture(rehearsed.rehearsal, rehearsed.verdict, rehearsed.limits, trade::words_of(manner.language), options);
}

/// The answer as JSON: the rehearsal's own text stands in it as it is.
std::string answer_text(const Body& body, const desk::EditedRehearsal& made, const desk::LiveQuestion& question) {
  const desk::Manner& manner = question.manner;
  const bool rehearsed = made.rehearsed.has_value();
  std::string text =
      fmt::format("{{\"format\":1,\"edit\":{:.0f},\"bands\":{},\"stress\":{},\"mistakes\":{}", body.has("edit") ? body.number("edit") : 0.0,
                  rehearsed && question.bands, rehearsed && report::tells_stress(made.rehearsed->rehearsal),
                  desk::write_json(desk::told_in(manner.language, desk::as_json(made.mistakes))));
  const bool finding = rehearsed && !made.rehearsed->verdict.findings.empty();
  text += fmt::format(",\"first\":{}", finding ? "0" : "null");
  text += ",\"rehearsal\":";
  text += rehearsed ? report::rehearsal_json(made.rehearsed->rehearsal, made.rehearsed->verdict, desk::made_by(),
                                             trade::words_of(manner.language))
                    : "null";
  text += ",\"picture\":";
  const bool drawn = rehearsed && body.truth_or("picture", true) && !made.rehearsed->rehearsal.impossible;
  text += drawn ? desk::write_json(picture_of(body, *made.rehearsed, manner)) : "null";
  return text + "}\n";
}

/// Of the tabs of one session each supersedes its own edits alone.
std::string tab_of(const Body& body) {
  constexpr std::size_t longest = 40;
  std::string tab = body.text_or("tab", "");
  if (tab.size() > longest)
    throw desk::Failure(desk::ErrorWord::bad_value, "\"tab\" is a text of up to 40 letters that tells the tabs of a browser apart.");
  return tab;
}

Answer rehearse(desk::LiveRehearsals& live, const Asked& asked) {
  const Body body("the body", asked.body,
                  {"firing", "new", "set", "unset", "from", "edit", "tab", "bands", "stress", "picture", "pane", "shade"});
  desk::LiveQuestion question;
  question.firing = firing_of(body);
  if (body.has("shade")) (void)body.word("shade", {"light", "dark"});  // the page's own style sheet does either
  const double edit = body.has("edit") ? body.number("edit") : 0;
  if (!(edit >= 0 && edit <= latest_edit && edit == std::floor(edit)))
    throw desk::Failure(desk::ErrorWord::bad_value, "\"edit\" is a whole number from 0 that rises from edit to edit.");
  question.edit = static_cast<std::int64_t>(edit);
  question.session = (asked.session != nullptr ? asked.session->key : "") + " " + tab_of(body);
  question.lab = asked.lab;
  question.bands = body.truth_or("bands", false);
  question.stress = stress_of(body) == "with";
  question.manner = manner_of(asked);
  Answer answer;
  answer.body = answer_text(body, live.answer(question), question);
  return answer;
}

Answer kept_answer(const desk::KeptRehearsal& made) {
  const report::KeptAs& kept = made.kept;
  desk::JsonList added, differ;
  for (const std::string& each : kept.added) added.emplace_back(each);
  for (const std::string& each : kept.differ) differ.emplace_back(each);
  return answer_of(desk::JsonObject{{"format", 1},
                                    {"name", kept.firing},
                                    {"version", kept.version},
                                    {"rehearsal", kept.rehearsal},
                                    {"is_new", kept.is_new},
                                    {"added", std::move(added)},
                                    {"differ", std::move(differ)},
                                    {"fault_expected", made.rehearsed.verdict.fault_expected},
                                    {"head", kept.head}});
}

Answer keep_typed(const Asked& asked) {
  const Body body("the body", asked.body,
                  {"firing", "new", "set", "unset", "from", "name", "names", "program_name", "reason", "edit", "tab", "bands", "stress",
                   "picture", "pane", "shade"});
  desk::EditedFiring firing = firing_of(body);
  firing.program_name = body.text_or("program_name", body.object("names", {"program"}).text_or("program", ""));
  try {
    return refused_with_more(
        [&] { return kept_answer(desk::keep_edited(firing, asked.lab, body.text_or("name", ""), body.text_or("reason", ""))); }, nullptr);
  } catch (const desk::MistakesTyped& mistakes) {
    throw FailureWith(mistakes.error(), mistakes.what(), {{"mistakes", desk::as_json(mistakes.mistakes())}});
  }
}

Answer keep_rehearsal(const Asked& asked) {
  const Body body("the body", asked.body, {"reason"});
  return refused_with_more(
      [&] { return kept_answer(desk::rehearse_and_keep(asked.path.at("name"), asked.lab, body.text_or("reason", ""))); }, nullptr);
}

}  // namespace

std::vector<Route> rehearse_routes() {
  const auto live = std::make_shared<desk::LiveRehearsals>();
  return {{"POST", "/api/rehearse", "rehearse", Needs::sign_in, [live](const Asked& asked) { return rehearse(*live, asked); }},
          {"POST", "/api/firings", "keep_firing", Needs::fire, keep_typed},
          {"POST", "/api/firings/{name}/rehearsal", "keep_rehearsal", Needs::fire, keep_rehearsal}};
}

}  // namespace heatwork::server
