#include <fmt/format.h>

#include <initializer_list>
#include <string>
#include <utility>
#include <vector>

#include "desk/errors.h"
#include "desk/lab/furnace_check.h"
#include "desk/lab/furnace_check_give_up.h"
#include "desk/lab/furnace_check_records.h"
#include "server/answer.h"
#include "server/body.h"
#include "server/routes/routes.h"
#include "trade/mistake.h"

namespace heatwork::server {
namespace {

std::vector<trade::Edit> answers_of(const Body& body) {
  std::vector<trade::Edit> answers;
  for (const Values::Pair& answer : body.texts_by_name("answers")) answers.push_back({answer.first, answer.second});
  for (const std::string& key : body.texts("unset")) answers.push_back({key, std::nullopt});
  return answers;
}

/// The entries of a list of readings, each with these keys only.
template <class Reading, class Make>
std::vector<Reading> readings(const Body& body, std::string_view list, const std::vector<std::string_view>& keys, const Make& make) {
  std::vector<Reading> all;
  for (const desk::Json& each : body.list(list))
    all.push_back(make(Body(fmt::format("reading {} of \"{}\"", all.size() + 1, list), each, keys)));
  return all;
}

desk::FurnaceCheckWords words_of(const Asked& asked, const Body& body) {
  desk::FurnaceCheckWords words;
  words.furnace = asked.path.at("name");
  words.go_on = body.text_or("go_on", "");
  words.answers = answers_of(body);
  words.trials = readings<desk::WireFired>(body, "trials", {"display", "melted", "at"}, [](const Body& trial) {
    return desk::WireFired{trial.text("display"), trial.text("melted"), trial.text_or("at", "")};
  });
  words.compared = readings<desk::ProbeRead>(body, "compared", {"display", "probe", "emf", "cold_junction", "at"}, [](const Body& read) {
    return desk::ProbeRead{read.text("display"), read.text_or("probe", ""), read.text_or("emf", ""), read.text_or("cold_junction", ""),
                           read.text_or("at", "")};
  });
  words.tabs = readings<desk::TabSeen>(body, "tabs", {"where", "looked_like", "lightness", "redness", "yellowness"}, [](const Body& tab) {
    return desk::TabSeen{tab.text("where"), tab.text_or("looked_like", ""), tab.text_or("lightness", ""), tab.text_or("redness", ""),
                         tab.text_or("yellowness", "")};
  });
  words.more_follows = body.truth_or("more_follows", false);
  return words;
}

desk::RecordTyped record_of(const Body& body, std::string_view readings, std::string_view table) {
  return {body.texts(readings), "", body.text_or(table, "")};
}

desk::CareAnswer vacuum(const desk::AskedLab& lab, const Body& body, const desk::FurnaceCheckWords& words) {
  desk::VacuumCheckWords vacuum{words, {}, {}, false};
  vacuum.pump_down = record_of(body, "pump_down", "pump_down_table");
  vacuum.rise = record_of(body, "rise", "rise_table");
  vacuum.cannot_be_shut = body.truth_or("cannot_be_shut", false);
  return desk::check_vacuum(lab, vacuum);
}

desk::CareAnswer heating(const desk::AskedLab& lab, const Body& body, const desk::FurnaceCheckWords& words) {
  desk::HeatingCheckWords heating{words, {}};
  heating.run = record_of(body, "run", "run_table");
  return desk::check_heating(lab, heating);
}

desk::CareAnswer checked(const Asked& asked, const Body& body, const desk::FurnaceCheckWords& words) {
  const std::string& of = asked.path.at("of");
  if (of == "temperature") return desk::check_temperature(asked.lab, words);
  if (of == "thermocouple") return desk::check_thermocouple(asked.lab, words);
  if (of == "chamber-map") return desk::check_chamber_map(asked.lab, words);
  if (of == "vacuum") return vacuum(asked.lab, body, words);
  if (of == "heating") return heating(asked.lab, body, words);
  throw desk::Failure(desk::ErrorWord::unknown_name,
                      fmt::format("\"{}\" is no guided check; there are temperature, thermocouple, chamber-map, vacuum and heating.",
                                  trade::for_message(of)));
}

/// What a check of this kind takes beside what all take: a key of another kind is refused, not overlooked.
Body body_of(const Asked& asked, std::vector<std::string_view> keys) {
  const std::string& of = asked.path.at("of");
  const auto also = [&](std::initializer_list<std::string_view> more) { keys.insert(keys.end(), more); };
  if (of == "vacuum")
    also({"pump_down", "pump_down_table", "rise", "rise_table", "cannot_be_shut"});
  else if (of == "heating")
    also({"run", "run_table"});
  else
    also({"unset", "trials", "compared", "tabs", "more_follows"});
  return {"the body", asked.body, std::move(keys)};
}

Answer told(const Asked& asked, const Body& body, const desk::FurnaceCheckWords& words) {
  return measured_answer(asked, checked(asked, body, words));
}

/// Worked out from what is sent, and from what is kept where it goes on; keeps nothing.
Answer check(const Asked& asked) {
  const Body body = body_of(asked, {"go_on", "answers"});
  return told(asked, body, words_of(asked, body));
}

Answer keep_check(const Asked& asked) {
  const Body body = body_of(asked, {"go_on", "answers", "from", "name", "decision", "reason"});
  desk::FurnaceCheckWords words = words_of(asked, body);
  words.name = body.text_or("name", "");
  words.decision = body.text_or("decision", "");
  words.reason = body.text_or("reason", "");
  if (!words.go_on.empty()) words.from = body.whole("from", 1, most_versions);
  words.keep = true;
  return told(asked, body, words);
}

Answer give_up(const Asked& asked) {
  const Body body("the body", asked.body, {"from", "reason"});
  desk::GiveUpWords words;
  words.check = asked.path.at("name");
  words.from = body.whole_if("from", 1, most_versions).value_or(0);
  words.reason = body.text_or("reason", "");
  return told_answer(asked, desk::give_up_check(asked.lab, words));
}

}  // namespace

std::vector<Route> furnace_check_routes() {
  return {
      {"POST", "/api/furnaces/{name}/checks/{of}", "check_furnace", Needs::sign_in, check},
      {"POST", "/api/furnaces/{name}/checks/{of}/kept", "keep_furnace_check", Needs::fire, keep_check},
      {"POST", "/api/checks/{name}/given-up", "give_up_check", Needs::fire, give_up},
  };
}

}  // namespace heatwork::server
