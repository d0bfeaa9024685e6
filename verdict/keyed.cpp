#include "verdict/keyed.h"

#include <fmt/format.h>

#include <cmath>
#include <map>

namespace heatwork::verdict {
namespace {

/// Gathers numbers beside the maker's.
class Gathering {
 public:
  template <class T>
  void add(std::string_view part, int stage, KeyedKind kind, const trade::Given<T>& given, const trade::Given<T>* maker, bool top = false) {
    Keyed keyed{part, stage, kind, number_of(given.value), {}, top};
    if (maker != nullptr) keyed.maker = number_of(maker->value);
    all.push_back(keyed);
  }
  template <class T>
  void add(std::string_view part, int stage, KeyedKind kind, const trade::Maybe<T>& given, const trade::Maybe<T>* maker) {
    if (given) add(part, stage, kind, *given, maker != nullptr && *maker ? &**maker : nullptr);
  }
  std::vector<Keyed> all;
};

template <class Stages>
auto maker_stage(const Stages& mine, const Stages* maker, std::size_t index) -> decltype(&mine[0]) {
  if (maker == nullptr || maker->empty()) return nullptr;
  if (maker->size() == mine.size()) return &(*maker)[index];
  return index + 1 == mine.size() ? &maker->back() : nullptr;
}

void add_heating(Gathering& gathering, const trade::Program& program, const trade::Program* maker) {
  for (std::size_t i = 0; i < program.heating.size(); ++i) {
    const trade::HeatingStage& stage = program.heating[i];
    const trade::HeatingStage* other = maker_stage(program.heating, maker != nullptr ? &maker->heating : nullptr, i);
    const int number = static_cast<int>(i) + 1;
    const bool top = i + 1 == program.heating.size();
    gathering.add("findings.part.heating_to", number, KeyedKind::temperature, stage.to, other ? &other->to : nullptr, top);
    gathering.add("findings.part.heating_rate", number, KeyedKind::rate, stage.rate, other ? &other->rate : nullptr, top);
    gathering.add("findings.part.heating_hold", number, KeyedKind::time, stage.hold, other ? &other->hold : nullptr, top);
  }
}

void add_cooling(Gathering& gathering, const trade::Program& program, const trade::Program* maker) {
  for (std::size_t i = 0; i < program.cooling.size(); ++i) {
    const trade::CoolingStage& stage = program.cooling[i];
    const bool alike = maker != nullptr && maker->cooling.size() == program.cooling.size();
    const trade::CoolingStage* other = alike ? &maker->cooling[i] : nullptr;
    const int number = static_cast<int>(i) + 1;
    gathering.add("findings.part.cooling_to", number, KeyedKind::temperature, stage.to, other ? &other->to : nullptr);
    gathering.add("findings.part.cooling_rate", number, KeyedKind::rate, stage.rate, other ? &other->rate : nullptr);
    gathering.add("findings.part.cooling_hold", number, KeyedKind::time, stage.hold, other ? &other->hold : nullptr);
  }
}

}  // namespace

std::vector<Keyed> keyed_in(const trade::Program& program, const trade::Program* maker) {
  Gathering gathering;
  gathering.add("findings.part.standby", 0, KeyedKind::temperature, program.standby, maker ? &maker->standby : nullptr);
  gathering.add("findings.part.entry", 0, KeyedKind::temperature, program.entry, maker ? &maker->entry : nullptr);
  gathering.add("findings.part.drying", 0, KeyedKind::time, program.drying_time, maker ? &maker->drying_time : nullptr);
  gathering.add("findings.part.closing", 0, KeyedKind::time, program.closing_time, maker ? &maker->closing_time : nullptr);
  gathering.add("findings.part.preheat", 0, KeyedKind::time, program.preheat_hold, maker ? &maker->preheat_hold : nullptr);
  add_heating(gathering, program, maker);
  if (program.vacuum) {
    const trade::Vacuum* other = maker != nullptr && maker->vacuum ? &*maker->vacuum : nullptr;
    gathering.add("findings.part.vacuum_from", 0, KeyedKind::temperature, program.vacuum->from, other ? &other->from : nullptr);
    gathering.add("findings.part.vacuum_to", 0, KeyedKind::temperature, program.vacuum->to, other ? &other->to : nullptr);
    gathering.add("findings.part.vacuum_hold", 0, KeyedKind::time, program.vacuum->hold_under_vacuum,
                  other ? &other->hold_under_vacuum : nullptr);
  }
  add_cooling(gathering, program, maker);
  gathering.add("findings.part.opening", 0, KeyedKind::temperature, program.opening_temperature,
                maker ? &maker->opening_temperature : nullptr);
  gathering.add("findings.part.unloading", 0, KeyedKind::temperature, program.unloading_temperature,
                maker ? &maker->unloading_temperature : nullptr);
  return std::move(gathering.all);
}

double number_of(quantity::Temperature value) {
  return value.celsius();
}
double number_of(quantity::Duration value) {
  return value.si();
}
double number_of(quantity::HeatingRate value) {
  return 60 * value.si();
}

std::string unit_of(KeyedKind kind) {
  return kind == KeyedKind::temperature ? "°C" : kind == KeyedKind::time ? "s" : "K/min";
}

std::string key_of(std::string_view part, int stage) {
  static const std::map<std::string_view, std::pair<std::string_view, std::string_view>> keys = {
      {"findings.part.standby", {"standby", ""}},
      {"findings.part.entry", {"entry", ""}},
      {"findings.part.drying", {"drying_time", ""}},
      {"findings.part.closing", {"closing_time", ""}},
      {"findings.part.preheat", {"preheat_hold", ""}},
      {"findings.part.heating_to", {"heating", "to"}},
      {"findings.part.heating_rate", {"heating", "rate"}},
      {"findings.part.heating_hold", {"heating", "hold"}},
      {"findings.part.vacuum_from", {"vacuum.from", ""}},
      {"findings.part.vacuum_to", {"vacuum.to", ""}},
      {"findings.part.vacuum_hold", {"vacuum.hold_under_vacuum", ""}},
      {"findings.part.cooling_to", {"cooling", "to"}},
      {"findings.part.cooling_rate", {"cooling", "rate"}},
      {"findings.part.cooling_hold", {"cooling", "hold"}},
      {"findings.part.opening", {"opening_temperature", ""}},
      {"findings.part.unloading", {"unloading_temperature", ""}}};
  const auto found = keys.find(part);
  if (found == keys.end()) return {};
  const auto& [head, tail] = found->second;
  return tail.empty() ? std::string(head) : fmt::format("{}[{}].{}", head, stage, tail);
}

std::string name_of(const Bench& bench, const Keyed& keyed) {
  if (keyed.stage == 0) return bench.say(keyed.part);
  return bench.say(keyed.part, {{"stage", bench.number(keyed.stage)}});
}

std::string shown(const Bench& bench, KeyedKind kind, double value) {
  const auto plain = [&](double number) { return bench.number(number, std::abs(number - std::round(number)) < 0.05 ? 0 : 1); };
  switch (kind) {
    case KeyedKind::temperature:
      return plain(bench.in_degrees(value)) + bench.unit_of_degrees();
    case KeyedKind::time:
      return bench.time(value);
    case KeyedKind::rate:
      return plain(bench.in_steps(value)) + bench.unit_of_rates();
  }
  return {};
}

}  // namespace heatwork::verdict
