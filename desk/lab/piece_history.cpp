#include "desk/lab/piece_history.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <set>
#include <tuple>
#include <utility>
#include <vector>

#include "desk/errors.h"
#include "desk/lab/kept_firing.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_shelf.h"
#include "quantity/read.h"
#include "quantity/write.h"
#include "report/number.h"
#include "trade/choice_words.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

using trade::Noun;

struct Event {
  std::int64_t at_ms = 0;
  std::string kind, id, text;
  JsonObject json;
};

template <class E>
std::string word_of(E choice) {
  return std::string(trade::choice_word(choice));
}

Json number_or_null(const std::optional<double>& number) {
  return number ? Json(*number) : Json();
}
JsonList names_of(const std::vector<trade::Given<std::string>>& names) {
  JsonList all;
  for (const auto& name : names) all.emplace_back(name.value);
  return all;
}
std::string joined(const std::vector<trade::Given<std::string>>& names) {
  std::string all;
  for (const auto& name : names) all += (all.empty() ? "" : ", ") + name.value;
  return all;
}

std::string line(std::string_view what, const std::string& says) {
  return says.empty() ? "" : "  " + care_line(what, says);
}

/// Like "12 K less than the maker's own".
std::string degree_in_words(const PieceReading& reading) {
  if (!reading.shift_K) return "";
  const long kelvin = std::lround(*reading.shift_K);
  if (kelvin == 0) return "like the maker's own firing";
  return fmt::format("like {} K {} than the maker's own", std::abs(kelvin), kelvin < 0 ? "less" : "more");
}

std::string layer_in_words(const LayerReading& layer) {
  std::vector<std::string> said;
  if (layer.porosity_percent) {
    std::string pores = fmt::format("{:.2g} % pores", *layer.porosity_percent);
    if (layer.sealed_share)
      pores += *layer.sealed_share >= 1   ? ", all closed"
               : *layer.sealed_share <= 0 ? ", all open"
                                          : fmt::format(", {:.0f} % of them closed", 100 * *layer.sealed_share);
    said.push_back(pores);
  }
  if (layer.rounding_um) said.push_back(fmt::format("edges rounded over {:.3g} \u00b5m", *layer.rounding_um));
  if (layer.crystallised_share) said.push_back(fmt::format("{:.3g} % crystallised", 100 * *layer.crystallised_share));
  return fmt::format("{} ({}): {}", layer.section, layer.material, fmt::join(said, ", "));
}

/// "thickest: tension 12 MPa (3 to 23) stays, 28 on the way"; why not, where it was not computed.
std::string stress_in_words(const StressReading& stress) {
  if (!stress.stays_MPa) return fmt::format("{}: {}", stress.section, stress.not_computed);
  const auto whole = [](double value) { return std::round(value) + 0.0; };
  const std::string band = stress.low_MPa && stress.high_MPa
                               ? fmt::format(" ({:.0f} to {:.0f})", whole(*stress.low_MPa), whole(*stress.high_MPa))
                               : std::string();
  return fmt::format("{} ({}): highest tension {:.0f} MPa{} stays, {:.0f} on the way", stress.section, stress.material,
                     whole(*stress.stays_MPa), band, whole(stress.on_the_way_MPa.value_or(*stress.stays_MPa)));
}

std::string state_in_words(const StateAfter& state) {
  if (!state.reading) return line("After", state.how);
  std::string text;
  std::string first = degree_in_words(*state.reading);
  if (state.reading->water_left_g)
    first += fmt::format("{}{}", first.empty() ? "" : ", ",
                         *state.reading->water_left_g < 5e-4 ? std::string("no water left")
                                                             : fmt::format("{:.2g} g water left", *state.reading->water_left_g));
  text += line("After", fmt::format("{} ({})", first.empty() ? "state" : first, state.how));
  for (const LayerReading& layer : state.reading->layers) text += line("", layer_in_words(layer));
  for (const StressReading& stress : state.reading->stress) text += line("", stress_in_words(stress));
  return text;
}

Json state_json(const StateAfter& state) {
  JsonObject out{{"how", state.how}, {"rehearsal", state.rehearsal > 0 ? Json(state.rehearsal) : Json()}};
  const PieceReading none;
  const PieceReading& reading = state.reading ? *state.reading : none;
  out.push_back({"shift_K", number_or_null(reading.shift_K)});
  out.push_back({"hold_s", number_or_null(reading.hold_s)});
  out.push_back({"peak_C", number_or_null(reading.peak_C)});
  out.push_back({"water_left_g", number_or_null(reading.water_left_g)});
  JsonList layers;
  for (const LayerReading& layer : reading.layers)
    layers.push_back(JsonObject{{"section", layer.section},
                                {"material", layer.material},
                                {"porosity_percent", number_or_null(layer.porosity_percent)},
                                {"sealed_share", number_or_null(layer.sealed_share)},
                                {"heat_work", number_or_null(layer.heat_work)},
                                {"rounding_um", number_or_null(layer.rounding_um)},
                                {"crystallised_share", number_or_null(layer.crystallised_share)},
                                {"crystal_um", number_or_null(layer.crystal_um)}});
  out.push_back({"layers", std::move(layers)});
  JsonList stresses;
  for (const StressReading& stress : reading.stress)
    stresses.push_back(JsonObject{{"section", stress.section},
                                  {"material", text_or_null(stress.material)},
                                  {"form", text_or_null(stress.form)},
                                  {"stays_MPa", number_or_null(stress.stays_MPa)},
                                  {"low_MPa", number_or_null(stress.low_MPa)},
                                  {"high_MPa", number_or_null(stress.high_MPa)},
                                  {"on_the_way_MPa", number_or_null(stress.on_the_way_MPa)},
                                  {"not_computed", text_or_null(stress.not_computed)}});
  out.push_back({"stress", std::move(stresses)});
  return out;
}

/// Gathers what the store tells of a piece, under each of its names.
class History {
 public:
  History(const StorePlace& place, records::Store& store) : place_(place), store_(store) {}

  void of(const std::string& piece) {
    if (!names_.insert(piece).second) return;
    std::int64_t seen = 0;
    for (int page = 1;; ++page) {
      const auto uses = store_.uses_of(piece, page);
      for (const auto& row : uses.rows) met(row.kind, row.id, piece);
      seen += static_cast<std::int64_t>(uses.rows.size());
      if (seen >= uses.count || uses.rows.empty()) break;
    }
  }

  std::vector<Event> in_order() {
    std::stable_sort(events_.begin(), events_.end(), [](const Event& one, const Event& other) {
      return std::tie(one.at_ms, one.kind, one.id) < std::tie(other.at_ms, other.kind, other.id);
    });
    return std::move(events_);
  }

 private:
  void met(const std::string& kind, const std::string& id, const std::string& piece) {
    if (!seen_.insert({kind, id}).second) return;  // a step meets a piece once a lot
    const auto document = store_.find(kind, id);
    const auto source = kept_source(*document);
    if (kind == trade::word(Noun::firing)) return fired(*document, piece);
    if (kind == trade::word(Noun::bench_step)) return worked(read_kept<trade::BenchStep>(source), *document);
    if (kind == trade::word(Noun::deviation)) return deviated(read_kept<trade::Deviation>(source), *document);
  }

  [[nodiscard]] std::string title(const std::string& utc, const records::Document& document, const std::string& what) const {
    return fmt::format("{}  {} {}@{}, {}\n", local_text(utc_ms(utc), place_.zone), document.kind, document.id, document.version, what);
  }

  [[nodiscard]] static JsonObject heading(const records::Document& document, const std::string& at, const std::string& person) {
    return {{"kind", document.kind}, {"name", document.id}, {"version", document.version}, {"at", at}, {"person", text_or_null(person)}};
  }

  static std::string pinned(const trade::FiringRecord& record, std::string_view kind, const std::string& name) {
    for (const trade::NameUsed& used : record.used)
      if (used.kind == kind && used.name == name && used.version > 0) return fmt::format("{}@{}", name, used.version);
    return name;
  }

  void fired(const records::Document& document, const std::string& piece) {
    const trade::Firing firing = firing_of(document);
    const trade::FiringRecord& record = *firing.record;
    const StateAfter state = state_after(store_, firing, piece);
    Event event{utc_ms(record.started), document.kind, document.id, "", heading(document, record.started, record.started_by)};
    const std::string stage = word_of(firing.stage.value);
    const std::string furnace = pinned(record, "furnace", firing.furnace.value), program = pinned(record, "program", firing.program.value),
                      was = pinned(record, "piece", piece);
    event.text = title(record.started, document, fmt::format("{}, {}", stage, word_of(record.state.value))) +
                 line("Fired", fmt::format("{} in {} under {}, started by {}", was, furnace, program, record.started_by));
    if (!record.interruption.empty())
      event.text += line("Interrupted", fmt::format("{}: {}", shown_moment(place_, record.interrupted), record.interruption));
    if (!record.ended.empty()) event.text += line("Ended", fmt::format("{}, by {}", shown_moment(place_, record.ended), record.ended_by));
    event.text += state_in_words(state);
    for (auto& member : JsonObject{{"state", word_of(record.state.value)},
                                   {"stage", stage},
                                   {"piece", was},
                                   {"furnace", furnace},
                                   {"program", program},
                                   {"interrupted", text_or_null(record.interrupted)},
                                   {"interruption", text_or_null(record.interruption)},
                                   {"ended", text_or_null(record.ended)},
                                   {"ended_by", text_or_null(record.ended_by)},
                                   {"after", state_json(state)}})
      event.json.push_back(member);
    came_out(record, piece, event);
    events_.push_back(std::move(event));
    for (const auto& on : firing.pieces)
      if (on.piece.value == piece && on.was) of(on.was->value);
  }

  static void came_out(const trade::FiringRecord& record, const std::string& piece, Event& event) {
    Json result;
    for (const trade::PieceFired& each : record.results) {
      if (each.piece.value != piece) continue;
      std::string said = word_of(each.outcome.value);
      if (each.looked_like) said += fmt::format(", looked like {}", quantity::write(each.looked_like->value));
      if (!each.seen.empty()) said += ", " + each.seen;
      event.text += line("Came out", said);
      result = JsonObject{{"outcome", word_of(each.outcome.value)},
                          {"looked_like_K", each.looked_like ? Json(each.looked_like->value.si()) : Json()},
                          {"seen", text_or_null(each.seen)}};
    }
    JsonList photos;
    for (const trade::PhotoKept& photo : record.photos) {
      event.text += line("Photo", photo.of.empty() ? photo.hash : fmt::format("{} {}", photo.hash, photo.of));
      photos.push_back(JsonObject{{"hash", photo.hash}, {"of", text_or_null(photo.of)}});
    }
    event.json.push_back({"result", std::move(result)});
    event.json.push_back({"photos", std::move(photos)});
  }

  void worked(const trade::BenchStep& step, const records::Document& document) {
    Event event{utc_ms(step.at), document.kind, document.id, "", heading(document, step.at, step.person)};
    event.text = title(step.at, document, word_of(step.work.value)) + line("By", step.person) + line("Lots", joined(step.lots)) +
                 line("Note", step.note);
    event.json.push_back({"work", word_of(step.work.value)});
    event.json.push_back({"pieces", names_of(step.pieces)});
    event.json.push_back({"lots", names_of(step.lots)});
    event.json.push_back({"note", text_or_null(step.note)});
    events_.push_back(std::move(event));
  }

  void deviated(const trade::Deviation& deviation, const records::Document& document) {
    const std::string decision = word_of(deviation.decision.value);
    Event event{utc_ms(deviation.found_at), document.kind, document.id, "", heading(document, deviation.found_at, deviation.found_by)};
    event.text = title(deviation.found_at, document, decision) + line("Left", deviation.from) + line("Found", deviation.found) +
                 line("By", deviation.found_by);
    if (!deviation.released_at.empty())
      event.text += line("Released", fmt::format("{}, by {}", shown_moment(place_, deviation.released_at), deviation.released_by));
    event.json.push_back({"from", text_or_null(deviation.from)});
    event.json.push_back({"found", text_or_null(deviation.found)});
    event.json.push_back({"decision", decision});
    event.json.push_back({"released_at", text_or_null(deviation.released_at)});
    event.json.push_back({"released_by", text_or_null(deviation.released_by)});
    events_.push_back(std::move(event));
  }

  const StorePlace& place_;
  records::Store& store_;
  std::set<std::string> names_;
  std::set<std::pair<std::string, std::string>> seen_;
  std::vector<Event> events_;
};

}  // namespace

CareAnswer history_of_piece(const AskedLab& asked, const std::string& piece) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    History history(place, store);
    history.of(piece);
    const std::vector<Event> events = history.in_order();
    const auto document = store.find(trade::word(Noun::piece), piece);
    if (events.empty() && !document)
      throw Failure(ErrorWord::unknown_name, fmt::format("The store keeps nothing of a piece \"{}\".", trade::for_message(piece)));
    std::string text =
        care_line("Piece", document ? fmt::format("{}@{}", piece, document->version) : piece) +
        care_line("Went through", events.empty() ? "nothing yet" : counted(static_cast<std::int64_t>(events.size()), "entry", "entries")) +
        care_line("Times", place.zone);
    JsonList all;
    for (const Event& event : events) {
      text += "\n" + event.text;
      all.push_back(event.json);
    }
    return CareAnswer{text,
                      JsonObject{{"format", 1},
                                 {"piece", piece},
                                 {"version", document ? Json(document->version) : Json()},
                                 {"zone", place.zone},
                                 {"history", std::move(all)}},
                      false};
  });
}

}  // namespace heatwork::desk
