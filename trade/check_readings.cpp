#include "trade/check_readings.h"

#include <fmt/format.h>

#include <set>

#include "trade/choice_words.h"
#include "trade/firing_record.h"
#include "trade/mistake.h"
#include "trade/samples.h"
#include "trade/slot.h"

namespace heatwork::trade {
namespace {

quantity::Reading<GaugeSample> read_sample(const std::string& text, const GaugeSample&) {
  return read_gauge_sample(text);
}
quantity::Reading<TemperatureSample> read_sample(const std::string& text, const TemperatureSample&) {
  return read_temperature_sample(text);
}

constexpr bool same_kind(const GaugeSample& a, const GaugeSample& b) {
  return a.unit == b.unit;
}
constexpr bool same_kind(const TemperatureSample&, const TemperatureSample&) {
  return true;
}

template <class Sample>
class SamplesSlot : public Slot {
 public:
  SamplesSlot(std::vector<Sample>& list, std::string_view kind, std::string_view example, std::string pattern)
      : list_(list), kind_(kind), example_(example), pattern_(std::move(pattern)) {}

  std::optional<std::string> take(const Node& node, const ReadingAid&) override {
    if (node.kind != Node::Kind::list) return wrong_kind(node, fmt::format("a list of readings such as [\"{}\"]", example_));
    if (node.items.size() > most_samples) return fmt::format("{} readings are written; allowed are {}", node.items.size(), most_samples);
    for (const Node& item : node.items) {
      if (item.kind != Node::Kind::text) return wrong_kind(item, fmt::format("a reading in quotes, such as \"{}\"", example_));
      auto sample = read_sample(item.text, Sample{});
      if (!sample) return sample.error();
      sample->place = item.place;
      if (auto wrong = wrong_after(*sample, item.text)) return wrong;
      list_.push_back(std::move(*sample));
    }
    return std::nullopt;
  }
  [[nodiscard]] bool present() const override { return !list_.empty(); }
  [[nodiscard]] std::string literal() const override {
    std::vector<std::string> quoted;
    for (const Sample& sample : list_) quoted.push_back(in_quotes(write_sample(sample)));
    return fmt::format("[{}]", fmt::join(quoted, ", "));
  }
  [[nodiscard]] Nature nature() const override {
    Nature nature{Nature::Type::texts, std::string(kind_), fmt::format("[\"{}\"]", example_), {}, {}, {}, {}};
    nature.pattern = pattern_;
    nature.longest = most_samples;
    nature.between = ';';
    return nature;
  }

 private:
  [[nodiscard]] std::optional<std::string> wrong_after(const Sample& sample, const std::string& text) const {
    if (list_.empty()) return std::nullopt;
    if (sample.after == list_.back().after)
      return fmt::format("\"{}\" is a second reading at the same moment; each moment has one", for_message(text));
    if (sample.after < list_.back().after)
      return fmt::format("\"{}\" lies before the reading above it: the clock went back; readings stand in the order of their time",
                         for_message(text));
    if (!same_kind(sample, list_.back()))
      return fmt::format("\"{}\" is in another unit than the reading above it; a record is in one unit", for_message(text));
    return std::nullopt;
  }

  std::vector<Sample>& list_;
  std::string_view kind_, example_;
  std::string pattern_;
};

/// Moments of readings that stand in order, each by itself.
template <class Readings>
void check_clock(const Readings& readings) {
  const std::string* last = nullptr;
  for (const auto& reading : readings) {
    if (reading.at.empty()) continue;
    const Place& place = place_of(reading.places, "at", reading.place);
    if (last != nullptr && reading.at == *last)
      throw Mistake(place, fmt::format("at: {} is the moment of the reading above it too; two readings take two moments", reading.at));
    if (last != nullptr && is_before(reading.at, *last))
      throw Mistake(place, fmt::format("at: {} lies before the reading above it, {}: the clock went back; readings stand in the order of "
                                       "their time",
                                       reading.at, *last));
    last = &reading.at;
  }
}

void check_compared(const ProbeReading& reading) {
  if (!reading.probe && !reading.emf_mV)
    throw Mistake(reading.place, "compared: neither probe nor emf says what the thermocouple read; one of them does");
  if (reading.probe && reading.emf_mV)
    throw Mistake(reading.emf_mV->place, "emf: what the thermocouple read is given as a temperature already; one of probe and emf goes");
  if (reading.emf_mV && !reading.cold_junction)
    throw Mistake(reading.emf_mV->place,
                  "emf: a voltage needs the temperature of the cold junction; add cold_junction, such as cold_junction = \"23 °C\"");
  if (reading.cold_junction && !reading.emf_mV)
    throw Mistake(reading.cold_junction->place, "cold_junction: it belongs to a voltage, and none is given; add emf, or the line goes");
}

void check_map(const std::vector<MapTab>& map) {
  std::set<MapPlace> seen;
  for (const MapTab& tab : map) {
    const auto where = choice_word(tab.where.value);
    if (!seen.insert(tab.where.value).second)
      throw Mistake(tab.where.place, fmt::format("where: \"{}\" has a tab already; each place has one", where));
    const int numbers = (tab.lightness ? 1 : 0) + (tab.redness ? 1 : 0) + (tab.yellowness ? 1 : 0);
    if (numbers != 0 && numbers != 3)
      throw Mistake(tab.place, "map: a colour is lightness, redness and yellowness together; give all three, or none");
    if (tab.looked_like && numbers != 0)
      throw Mistake(tab.looked_like->place, "looked_like: the tab is told by its colour already; one of the two goes");
    if (!tab.looked_like && numbers == 0)
      throw Mistake(tab.place, fmt::format("map: the tab of \"{}\" says nothing of how it looked; give looked_like, or its colour", where));
  }
}

}  // namespace

void samples(Fields& fields, std::string_view key, std::vector<GaugeSample>& list, std::string_view meaning) {
  SamplesSlot slot(list, "a list of readings of a gauge", "30 s, 300 mbar", pattern_of_gauge_sample());
  fields.value({key, meaning, false}, slot);
}

void samples(Fields& fields, std::string_view key, std::vector<TemperatureSample>& list, std::string_view meaning) {
  SamplesSlot slot(list, "a list of readings of a display", "30 s, 412 °C", pattern_of_temperature_sample());
  fields.value({key, meaning, false}, slot);
}

void check_readings(const Check& check) {
  check_clock(check.trials);
  check_clock(check.compared);
  for (const ProbeReading& reading : check.compared) check_compared(reading);
  check_map(check.map);
  if (check.wire && check.wire->melting_u && !check.wire->melting)
    throw Mistake(check.wire->melting_u->place,
                  "melting_u: no melting temperature is given that it could belong to; add melting, or the "
                  "line goes");
  if (check.probe && check.probe->correction_u && !check.probe->correction)
    throw Mistake(check.probe->correction_u->place,
                  "correction_u: no correction is given that it could belong to; add correction, or the "
                  "line goes");
}

}  // namespace heatwork::trade
