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

}  // namespace

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
