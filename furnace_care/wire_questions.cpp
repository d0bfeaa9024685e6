#include "furnace_care/wire_questions.h"

#include "trade/choice_words.h"

namespace heatwork::furnace_care {
namespace {

template <class E>
std::vector<std::string> words_of() {
  const auto words = trade::choices<E>();
  return {words.begin(), words.end()};
}

Question value(std::string key, std::string sentence, std::string why, std::string example) {
  return {std::move(key), std::move(sentence), std::move(why), {}, std::move(example)};
}

Question truth(std::string key, std::string sentence, std::string why) {
  return {std::move(key), std::move(sentence), std::move(why), {"yes", "no"}, "no"};
}

/// Only where nothing states where the wire melts.
std::optional<Question> about_melting(const trade::WireTest& wire) {
  if (!wire.purity)
    return value("wire.purity", "How pure is the wire?", "An alloy melts lower: 0.1 % of copper lowers silver by 0.7 K.", "99.99 %");
  if (wire.metal->value == trade::TestWire::gold) return std::nullopt;  // gold feels no oxygen
  if (!wire.gas)
    return Question{"wire.gas", "Which gas is around the wire while it is held?",
                    "Molten silver takes up oxygen: in air it melts about 10 K lower than without oxygen.", words_of<trade::TestGas>(),
                    "vacuum"};
  if (wire.gas->value == trade::TestGas::vacuum && !wire.pressure)
    return value("wire.pressure", "At which pressure is it held?", "What air is left still lowers the melting point by 1 to 3 K.",
                 "50 mbar");
  const bool may_be_vented = wire.gas->value == trade::TestGas::vacuum || wire.gas->value == trade::TestGas::inert;
  if (may_be_vented && !wire.vented_hot)
    return truth("wire.vented_hot", "Is air let in while the wire is still hot?",
                 "A wire that meets air before it is cold melts as one in air.");
  return std::nullopt;
}

/// Whether the answer to a question is there; where it is, `to` gets it.
bool take_answer(const std::string& key, const trade::WireTest& from, trade::WireTest& to) {
  const auto take = [](const auto& answer, auto& into) {
    into = answer;
    return answer.has_value();
  };
  if (key == "wire.metal") return take(from.metal, to.metal);
  if (key == "wire.purity") return take(from.purity, to.purity);
  if (key == "wire.gas") return take(from.gas, to.gas);
  if (key == "wire.pressure") return take(from.pressure, to.pressure);
  if (key == "wire.vented_hot") return take(from.vented_hot, to.vented_hot);
  if (key == "wire.diameter") return take(from.diameter, to.diameter);
  if (key == "wire.hold") return take(from.hold, to.hold);
  return take(from.criterion, to.criterion);
}

}  // namespace

std::vector<Question> answered_wire_questions(const trade::WireTest& wire) {
  std::vector<Question> answered;
  trade::WireTest so_far;
  so_far.melting = wire.melting;
  while (const auto question = next_wire_question(so_far)) {
    if (!take_answer(question->key, wire, so_far)) break;
    answered.push_back(*question);
  }
  return answered;
}

std::vector<std::string> take_out_what_no_longer_fits(trade::WireTest& wire) {
  std::vector<std::string> told;
  const auto take_out = [&](auto& answer, const char* sentence) {
    if (!answer) return;
    answer.reset();
    told.emplace_back(sentence);
  };
  const bool is_gold = wire.metal && wire.metal->value == trade::TestWire::gold;
  if (is_gold) take_out(wire.gas, "Gold feels no gas: what was answered of the gas is taken out.");
  const bool in_vacuum = wire.gas && wire.gas->value == trade::TestGas::vacuum;
  const bool may_be_vented = in_vacuum || (wire.gas && wire.gas->value == trade::TestGas::inert);
  if ((wire.gas || is_gold) && !in_vacuum)
    take_out(wire.pressure, "The wire is held in no vacuum: the pressure that was answered is taken out.");
  if ((wire.gas || is_gold) && !may_be_vented)
    take_out(wire.vented_hot, "There is air or any gas around the wire: whether air is let in hot is taken out.");
  return told;
}

std::optional<Question> next_wire_question(const trade::WireTest& wire) {
  if (!wire.metal)
    return Question{"wire.metal", "Which metal is the wire?", "Silver melts near 960 °C, gold at 1064 °C.", words_of<trade::TestWire>(),
                    "silver"};
  if (!wire.melting)
    if (auto question = about_melting(wire)) return question;
  if (!wire.diameter)
    return value("wire.diameter", "How thick is the wire?", "A thick wire needs more heat and time to melt: 0.3 mm or less is best.",
                 "0.25 mm");
  if (!wire.hold)
    return value("wire.hold", "How long is the display value held?", "A short hold asks for a hotter furnace: 2 min or more is best.",
                 "2 min");
  if (!wire.criterion)
    return Question{"wire.criterion", "What counts as melted?",
                    "A cut end rounds as soon as melting begins; a ball needs all the heat of melting.", words_of<trade::MeltCriterion>(),
                    "edges rounded"};
  return std::nullopt;
}

}  // namespace heatwork::furnace_care
