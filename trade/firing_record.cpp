#include "trade/firing_record.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "trade/field_ranges.h"
#include "trade/mistake.h"
#include "trade/slot.h"

namespace heatwork::trade {
namespace {

using quantity::Duration;
using quantity::kelvins;
using quantity::millibars;
using quantity::minutes;
using quantity::Pressure;
using quantity::seconds;
using quantity::TemperatureDifference;

constexpr std::size_t most_pieces = 40;  // as on the tray
constexpr std::size_t most_used = 400;
constexpr std::size_t most_photos = 40;

void describe_used(Fields& fields, NameUsed& used) {
  fields.words("kind", used.kind, {noun_words.begin(), noun_words.end()}, "kind of what was used");
  PlainSlot name(used.name, TextCodec{60, true});
  fields.value({"name", "by which the firing, or what it names, calls it", true, {}, Role::for_people}, name);
  fields.count("version", used.version, "of the store; 0: it came from elsewhere", {0, 1'000'000}, "0");
  fields.hash("snapshot", used.snapshot, "BLAKE2b-256 of the text that was kept for it, where it came from elsewhere");
}

void describe_measured(Fields& fields, MeasuredFiring& measured) {
  fields.optional("highest_display", measured.highest_display, "highest display temperature", display_range());
  fields.optional("hold", measured.hold, "hold at the highest temperature", up_to_a_day());
  fields.optional("lowest_pressure", measured.lowest_pressure, "lowest pressure, absolute",
                  Between<Pressure>{millibars(0), millibars(1100)});
  fields.optional("duration", measured.duration, "from start to end", Between<Duration>{seconds(0), minutes(7 * 1440)});
  fields.hash("log_hash", measured.log_hash, "BLAKE2b-256 of the file of the furnace's log");
}

void describe_result(Fields& fields, PieceFired& result) {
  fields.reference("piece", result.piece, Noun::piece, "that was on the tray");
  fields.choice("outcome", result.outcome, {}, "how it came out");
  fields.optional("looked_like", result.looked_like, "degree of firing seen: as if it had been so much hotter, or colder",
                  Between<TemperatureDifference>{kelvins(-150), kelvins(150)});
  fields.text("seen", result.seen, "what was seen, in words");
}

void describe_photo(Fields& fields, PhotoKept& photo) {
  fields.hash("hash", photo.hash, "BLAKE2b-256 of its bytes", true);
  fields.text("of", photo.of, "what it shows, in words");
}

/// The moments and persons of a record, for sentences.
class RecordCheck {
 public:
  explicit RecordCheck(const Firing& firing) : firing_(firing), record_(*firing.record) {}

  void run() const {
    check_state();
    check_order();
    check_used();
    check_results();
    check_photos();
  }

 private:
  [[nodiscard]] FiringState state() const { return record_.state.value; }
  [[nodiscard]] std::string state_word() const { return std::string(choices<FiringState>()[static_cast<std::size_t>(state())]); }
  [[nodiscard]] const Place& at(std::string_view key) const { return place_of(record_.places, key, record_.state.place); }

  void needs(std::string_view key, const std::string& text) const {
    if (text.empty())
      throw Mistake(record_.state.place,
                    fmt::format("state: a firing that is \"{}\" needs {}; add the line, or set another state", state_word(), key));
  }
  void needs_none(std::string_view key, const std::string& text) const {
    if (!text.empty())
      throw Mistake(at(key), fmt::format("{}: a firing that is \"{}\" has none; set another state, or the line goes", key, state_word()));
  }

  void check_state() const {
    const FiringRecord& record = record_;
    const bool has_started = state() != FiringState::planned && state() != FiringState::called_off;
    if (has_started) {
      needs("started", record.started);
      needs("started_by", record.started_by);
    } else {
      needs_none("started", record.started);
      needs_none("started_by", record.started_by);
      needs_none("interrupted", record.interrupted);
      needs_none("interruption", record.interruption);
    }
    if (state() == FiringState::ended) {
      needs("ended", record.ended);
      needs("ended_by", record.ended_by);
    } else {
      needs_none("ended", record.ended);
      needs_none("ended_by", record.ended_by);
    }
    if (state() == FiringState::interrupted) {
      needs("interrupted", record.interrupted);
      needs("interruption", record.interruption);
    } else if (record.interrupted.empty() != record.interruption.empty()) {
      throw Mistake(record.interrupted.empty() ? at("interruption") : at("interrupted"),
                    "interrupted and interruption belong together: when, and what happened; give both, or neither");
    }
  }

  void check_order() const {
    const auto& record = record_;
    const std::array<std::pair<std::string_view, const std::string*>, 3> moments{
        {{"started", &record.started}, {"interrupted", &record.interrupted}, {"ended", &record.ended}}};
    for (std::size_t later = 1; later < moments.size(); ++later)
      for (std::size_t earlier = 0; earlier < later; ++earlier) {
        const auto& [key, moment] = moments[later];
        const auto& [first_key, first] = moments[earlier];
        if (!moment->empty() && !first->empty() && is_before(*moment, *first))
          throw Mistake(at(key), fmt::format("{}: {} lies before {}, {}; allowed is from there on", key, *moment, first_key, *first));
      }
  }

  void check_used() const {
    std::set<std::pair<std::string, std::string>> seen;
    for (const auto& used : record_.used) {
      const std::string what = fmt::format("{} \"{}\"", used.kind, used.name);
      if (!seen.insert({used.kind, used.name}).second)
        throw Mistake(used.place, fmt::format("used: {} is written twice; each stands once", what));
      if (used.version == 0 && used.snapshot.empty())
        throw Mistake(used.place, fmt::format("used: {} has neither a version nor a snapshot; one of them says which text it was", what));
      if (used.version != 0 && !used.snapshot.empty())
        throw Mistake(used.place, fmt::format("used: {} has both a version and a snapshot; one of them says which text it was", what));
    }
  }

  void check_results() const {
    const bool over = state() == FiringState::ended || state() == FiringState::interrupted;
    if (!over && !record_.results.empty())
      throw Mistake(record_.results.front().piece.place,
                    fmt::format("piece: a firing that is \"{}\" has no result yet; set another state, or the table goes", state_word()));
    std::set<std::string> seen;
    for (const auto& result : record_.results) {
      const auto& name = result.piece.value;
      if (std::none_of(firing_.pieces.begin(), firing_.pieces.end(), [&](const PieceOnTray& on) { return on.piece.value == name; })) {
        std::vector<std::string> there;
        for (const auto& on : firing_.pieces) there.push_back(on.piece.value);
        throw Mistake(result.piece.place, fmt::format("piece: \"{}\" was not on the tray; there {} {}", name,
                                                      there.size() == 1 ? "was" : "were", fmt::join(there, ", ")));
      }
      if (!seen.insert(name).second)
        throw Mistake(result.piece.place, fmt::format("piece: \"{}\" has two results; each piece has one", name));
    }
  }

  void check_photos() const {
    std::set<std::string> seen;
    for (const auto& photo : record_.photos)
      if (!seen.insert(photo.hash).second) throw Mistake(photo.place, "photo: the same photo is written twice; each stands once");
  }

  const Firing& firing_;
  const FiringRecord& record_;
};

}  // namespace

const Place& place_of(const PlacesByKey& places, std::string_view key, const Place& otherwise) {
  const auto found = places.find(key);
  return found == places.end() ? otherwise : found->second;
}

void describe_record(Fields& fields, FiringRecord& record) {
  fields.choice("state", record.state, {}, "what became of the firing");
  fields.moment("planned_for", record.planned_for, "when it is to start", &record.places);
  fields.moment("started", record.started, "when it started", &record.places);
  fields.person("started_by", record.started_by, "who started it", &record.places);
  fields.moment("ended", record.ended, "when it ended", &record.places);
  fields.person("ended_by", record.ended_by, "who took the pieces out", &record.places);
  fields.moment("interrupted", record.interrupted, "when it was interrupted", &record.places);
  fields.placed_text("interruption", record.interruption, "what happened then", &record.places);
  fields.text("read_back", record.read_back, "what was read off the panel before the start");
  fields.tables("used", record.used, 0, most_used, "which text each name stood for", describe_used, {{}, "name"});
  fields.optional_table("measured", record.measured, "what was read off the furnace, or its log", describe_measured);
  fields.tables("result", record.results, 0, most_pieces, "how each piece came out", describe_result, {{}, "piece"});
  fields.tables("photo", record.photos, 0, most_photos, "kept with it", describe_photo, {{}, "hash"});
}

void check_record(const Firing& firing) {
  RecordCheck(firing).run();
}

}  // namespace heatwork::trade
