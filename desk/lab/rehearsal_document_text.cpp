#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "desk/lab/exact_numbers.h"
#include "desk/lab/rehearsal_document.h"
#include "report/number.h"

namespace heatwork::desk {
namespace {

using Json = nlohmann::ordered_json;
constexpr int document_format = 1;
constexpr std::size_t scalars_of_crystals = 3;  // behind the z of each step: loss, diameter, highest temperature
constexpr std::size_t values_a_slice = 5;       // of a powder's sealed pores

// One list of keys a table serves writing and reading: what is written can be read.

/// Puts what there is: an absent key says "nothing".
class Writing {
 public:
  explicit Writing(Json& out) : out_(out) {}
  void word(const char* key, std::string& text) {
    if (!text.empty()) out_[key] = text;
  }
  void number(const char* key, std::optional<double>& value) {
    if (value) out_[key] = report::written(*value, key);
  }
  void count(const char* key, int& value) {
    if (value != 0) out_[key] = value;
  }
  template <class T>
  void whole(const char* key, T& value) {
    out_[key] = value;
  }

 private:
  Json& out_;
};

class Reading {
 public:
  explicit Reading(const Json& in) : in_(in) {}
  void word(const char* key, std::string& text) {
    if (in_.contains(key)) text = in_.at(key).get<std::string>();
  }
  void number(const char* key, std::optional<double>& value) {
    if (in_.contains(key)) value = in_.at(key).get<double>();
  }
  void count(const char* key, int& value) {
    if (in_.contains(key)) value = in_.at(key).get<int>();
  }
  template <class T>
  void whole(const char* key, T& value) {
    value = in_.at(key).get<T>();
  }

 private:
  const Json& in_;
};

template <class Way>
void keys(Way& way, TextStoodFor& text) {
  way.word("kind", text.name.kind);
  way.word("name", text.name.name);
  way.count("version", text.name.version);
  way.word("snapshot", text.name.snapshot);
  way.word("from", text.from);
}

template <class Way>
void keys(Way& way, KeptFinding& finding) {
  way.word("aspect", finding.aspect);
  way.word("level", finding.level);
  way.word("piece", finding.piece);
  way.word("sentence", finding.sentence);
  way.number("number", finding.number);
  way.word("unit", finding.unit);
  way.number("low", finding.low);
  way.number("high", finding.high);
  way.number("limit", finding.limit);
  way.word("limit_from", finding.limit_from);
  way.word("narrow", finding.narrow);
  way.word("change", finding.change);
  way.word("where", finding.where);
}

template <class Way>
void keys(Way& way, LayerReading& layer) {
  way.word("section", layer.section);
  way.word("material", layer.material);
  way.number("porosity_percent", layer.porosity_percent);
  way.number("sealed_share", layer.sealed_share);
  way.number("heat_work", layer.heat_work);
  way.number("rounding_um", layer.rounding_um);
  way.number("crystallised_share", layer.crystallised_share);
  way.number("crystal_um", layer.crystal_um);
}

template <class Way>
void keys(Way& way, StressReading& stress) {
  way.word("section", stress.section);
  way.word("material", stress.material);
  way.word("form", stress.form);
  way.number("stays_MPa", stress.stays_MPa);
  way.number("low_MPa", stress.low_MPa);
  way.number("high_MPa", stress.high_MPa);
  way.number("on_the_way_MPa", stress.on_the_way_MPa);
  way.word("not_computed", stress.not_computed);
}

template <class Way>
void keys(Way& way, PieceReading& piece) {
  way.word("piece", piece.piece);
  way.word("quantity", piece.quantity);
  way.number("shift_K", piece.shift_K);
  way.number("hold_s", piece.hold_s);
  way.number("peak_C", piece.peak_C);
  way.number("water_left_g", piece.water_left_g);
}

template <class Way>
void keys(Way& way, RehearsalDocument& document) {
  way.word("firing", document.firing);
  way.whole("firing_version", document.firing_version);
  way.word("program_version", document.program_version);
  way.whole("model_version", document.model_version);
  way.word("data_version", document.data_version);
  way.whole("seed", document.seed);
  way.word("inputs_hash", document.inputs_hash);
}

template <class T>
Json written(T value) {
  Json out = Json::object();
  Writing way(out);
  keys(way, value);
  return out;
}
template <class T>
T read(const Json& json) {
  T value;
  Reading way(json);
  keys(way, value);
  return value;
}
template <class T>
std::vector<T> read_list(const Json& list) {
  std::vector<T> out;
  for (const Json& each : list) out.push_back(read<T>(each));
  return out;
}

/// States of powder are much alike from point to point, so each is told by what differs from the one before it.
class StatesWriting {
 public:
  /// Faces of a thin wall live through the same: a point like an earlier one of its piece is that one's place in the list.
  Json written(const firing::PieceState& piece) {
    Json out = Json::array();
    std::vector<std::string> told;
    for (const firing::PointState& point : piece.points) {
      told.push_back(bits(point));
      const auto same = static_cast<std::size_t>(std::find(told.begin(), told.end(), told.back()) - told.begin());
      out.push_back(same + 1 < told.size() ? Json(same) : written(point));
    }
    return out;
  }

 private:
  static std::vector<double> values_of(const physics::CrystallisationState& crystals) {
    std::vector<double> values = crystals.z;
    values.insert(values.end(), {crystals.loss, crystals.crystal_um, crystals.highest_K});
    return values;
  }
  static std::string bits(const firing::PointState& point) {
    return (point.powder ? exact_text(physics::canonical_values(*point.powder)) : "") + "," +
           (point.crystals ? exact_text(values_of(*point.crystals)) : "") + "," +
           (point.zirconia ? exact_text(physics::canonical_values(*point.zirconia)) : "") + "," +
           (point.leucite_minutes > 0 ? exact_text(std::vector{point.leucite_minutes}) : "");
  }
  Json written(const firing::PointState& point) {
    Json out = Json::object();
    if (point.powder) {
      std::vector<double> values = physics::canonical_values(*point.powder);
      out["powder"] = exact_text(values, powder_before_, values_a_slice);
      powder_before_ = std::move(values);
    }
    if (point.crystals) out["crystals"] = exact_text(values_of(*point.crystals));
    if (point.zirconia) out["zirconia"] = exact_text(physics::canonical_values(*point.zirconia));
    if (point.leucite_minutes > 0) out["leucite"] = exact_text(std::vector{point.leucite_minutes});
    return out;
  }

  std::vector<double> powder_before_;
};

class StatesReading {
 public:
  firing::PieceState read(const Json& json) {
    firing::PieceState piece;
    for (const Json& point : json)
      piece.points.push_back(point.is_number() ? firing::PointState(piece.points.at(point.get<std::size_t>())) : read_point(point));
    return piece;
  }

 private:
  firing::PointState read_point(const Json& json) {
    firing::PointState point;
    if (json.contains("powder")) {
      powder_before_ = exact_numbers(json.at("powder").get<std::string>(), powder_before_, values_a_slice);
      point.powder = physics::powder_state_from(powder_before_);
    }
    if (json.contains("crystals")) point.crystals = crystals_of(exact_numbers(json.at("crystals").get<std::string>()));
    if (json.contains("zirconia")) point.zirconia = physics::zirconia_state_from(exact_numbers(json.at("zirconia").get<std::string>()));
    if (json.contains("leucite")) point.leucite_minutes = exact_numbers(json.at("leucite").get<std::string>()).at(0);
    return point;
  }
  static physics::CrystallisationState crystals_of(const std::vector<double>& values) {
    if (values.size() < scalars_of_crystals) throw std::invalid_argument("the state of a layer's crystals is cut off");
    physics::CrystallisationState state;
    const std::size_t steps = values.size() - scalars_of_crystals;
    state.z.assign(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(steps));
    state.loss = values[steps];
    state.crystal_um = values[steps + 1];
    state.highest_K = values[steps + 2];
    return state;
  }

  std::vector<double> powder_before_;
};

RehearsalDocument read_keys(const Json& json) {
  auto document = read<RehearsalDocument>(json);
  document.used = read_list<TextStoodFor>(json.at("used"));
  if (json.contains("impossible")) document.impossible = json.at("impossible").get<std::string>();
  document.findings = read_list<KeptFinding>(json.at("findings"));
  for (const Json& piece : json.at("pieces")) {
    document.pieces.push_back(read<PieceReading>(piece));
    document.pieces.back().layers = read_list<LayerReading>(piece.at("layers"));
    if (piece.contains("stress")) document.pieces.back().stress = read_list<StressReading>(piece.at("stress"));
  }
  StatesReading states;
  for (const Json& state : json.at("states")) document.states.push_back(states.read(state));
  return document;
}

}  // namespace

std::string write_rehearsal_document(const RehearsalDocument& document) {
  Json out = {{"format", document_format}};
  out.update(written<RehearsalDocument>(document));
  out["used"] = Json::array();
  for (const TextStoodFor& text : document.used) out["used"].push_back(written<TextStoodFor>(text));
  if (document.impossible) out["impossible"] = *document.impossible;
  out["findings"] = Json::array();
  for (const KeptFinding& finding : document.findings) out["findings"].push_back(written<KeptFinding>(finding));
  out["pieces"] = Json::array();
  for (const PieceReading& piece : document.pieces) {
    Json each = written<PieceReading>(piece);
    each["layers"] = Json::array();
    for (const LayerReading& layer : piece.layers) each["layers"].push_back(written<LayerReading>(layer));
    for (const StressReading& stress : piece.stress) each["stress"].push_back(written<StressReading>(stress));
    out["pieces"].push_back(std::move(each));
  }
  out["states"] = Json::array();
  StatesWriting states;
  for (const firing::PieceState& state : document.states) out["states"].push_back(states.written(state));
  return out.dump(-1, ' ', false, Json::error_handler_t::replace);
}

RehearsalDocument read_rehearsal_document(std::string_view text) {
  try {
    const Json json = Json::parse(text);
    const int format = json.at("format").get<int>();
    if (format != document_format)
      throw std::runtime_error(fmt::format("The kept rehearsal is of format {}; this Heatwork reads format {}.", format, document_format));
    return read_keys(json);
  } catch (const nlohmann::json::exception&) {
    throw std::runtime_error("The kept rehearsal cannot be read: a key is missing or holds something else.");
  } catch (const std::logic_error& what) {  // a state of another layout, a place beyond the list
    throw std::runtime_error(fmt::format("The kept rehearsal cannot be read: {}.", what.what()));
  }
}

}  // namespace heatwork::desk
