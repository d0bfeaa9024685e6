#include "tests/store/many.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "desk/lab/local_time.h"

namespace heatwork::store_proof {

using records::Change;

namespace {

constexpr std::int64_t ms_a_firing_of_a_furnace = 10LL * 365 * 24 * 3600 * 1000 / 30'000;  ///< 30 000 in ten years
constexpr std::size_t programs = 12;
constexpr int cases_a_lot = 25;
constexpr int cases_a_check = 40;
constexpr std::size_t documents_a_change = 500;

std::string key_of(const std::string& kind, const std::string& id, int version) {
  return fmt::format("{} {} {}", kind, id, version);
}

std::string lot_name(bool powder, std::int64_t number) {
  return fmt::format("{}-{}", powder ? "lot" : "water", number);
}

}  // namespace

records::Opening opening_of_many(records::IndexOf index_of) {
  records::Opening opening;
  opening.index_of = std::move(index_of);
  opening.make = true;
  opening.who = {"mk", "named", "2026-11-25T17:11:04.123Z", "Europe/Berlin"};
  return opening;
}

ManyYears::ManyYears(std::int64_t firings, std::uint64_t seed)
    : wanted_(firings),
      furnaces_(static_cast<int>(std::clamp<std::int64_t>(firings / 5'000, 1, 50))),
      random_(seed),
      kept_by_desk_(KeptByDesk::of_this_program()),
      furnace_versions_(static_cast<std::size_t>(furnaces_), 0),
      program_versions_(programs, 0) {}

std::int64_t ManyYears::now_ms() const {
  return begin_ms + done_ * ms_a_firing_of_a_furnace / furnaces_;
}
std::int64_t ManyYears::end_ms() const {
  return begin_ms + wanted_ * ms_a_firing_of_a_furnace / furnaces_;
}
std::string ManyYears::day_after(int days) const {
  constexpr std::int64_t ms_a_day = 24LL * 3600 * 1000;
  return desk::utc_text(now_ms() + days * ms_a_day).substr(0, 10);
}

void ManyYears::add(Change& change, const OpenDocument& open, const std::string& id, int after, const char* action) {
  with_[Open::name] = id;
  records::NewVersion made;
  made.kind = open.kind();
  made.id = id;
  made.after = after;
  made.body = open.body(with_);
  made.action = action;
  indexes_[key_of(made.kind, id, after + 1)] = open.index(with_);
  change.documents.push_back(std::move(made));
}

records::Index ManyYears::index_of(const records::Document& document) const {
  return indexes_.at(key_of(document.kind, document.id, document.version));
}

void ManyYears::begin(Change& change) {
  for (const auto& [id, open] : kept_by_desk_.ground()) add(change, open, id, 0, "added");
  for (std::size_t program = 0; program < 2 * programs; ++program) change_program(change, program % programs);
  for (std::size_t furnace = 0; furnace < furnace_versions_.size(); ++furnace) check_furnace(change, furnace);
  begun_ = true;
}

void ManyYears::check_furnace(Change& change, std::size_t furnace) {
  int& stands = furnace_versions_[furnace];
  with_[Open::furnace] = fmt::format("furnace-{}", furnace);
  with_[Open::started] = desk::utc_text(now_ms());
  with_[Open::day] = day_after(0);
  with_[Open::later_day] = day_after(91);
  add(change, kept_by_desk_.check(draw(10) > 0), fmt::format("check-{}-{}", furnace, ++checks_), 0, "added");
  add(change, kept_by_desk_.furnace(), with_[Open::furnace], stands, stands ? "changed" : "added");
  ++stands;
}

void ManyYears::change_program(Change& change, std::size_t program) {
  int& stands = program_versions_[program];
  with_[Open::degrees] = fmt::format("{} \u00b0C", 403 + stands % 37);
  add(change, kept_by_desk_.program(), fmt::format("program-{}", program), stands, stands ? "changed" : "added");
  ++stands;
}

void ManyYears::new_lot(Change& change, bool powder) {
  std::int64_t& number = lots_[powder];
  with_[Open::code] = fmt::format("odd {}/{}", draw(1'000'000), draw(10));
  with_[Open::day] = day_after(-7);
  with_[Open::later_day] = day_after(700 + static_cast<int>(draw(300)));
  add(change, kept_by_desk_.lot(powder, false), lot_name(powder, ++number), 0, "added");
  if (number > 40) add(change, kept_by_desk_.lot(powder, true), lot_name(powder, number - 40), 1, "used up");
}

void ManyYears::new_case(Change& change) {
  const std::string id = fmt::format("case-{}", ++cases_);
  for (const bool powder : {false, true})
    if ((cases_ - 1) % cases_a_lot == 0) new_lot(change, powder);
  const std::size_t pieces = 1 + draw(most_pieces);
  with_[Open::of_case] = id;
  with_[Open::code] = fmt::format("practice {}", draw(900));
  const std::string ordered = day_after(-3), wanted = day_after(11);
  for (std::size_t i = 0; i < pieces; ++i) {
    with_[Open::piece_1 + i] = fmt::format("piece-{}-{}", cases_, i);
    add(change, kept_by_desk_.piece(i, false), with_[Open::piece_1 + i], 0, "added");
  }
  const auto keep_case = [&](int after) {
    with_[Open::day] = ordered;
    with_[Open::later_day] = wanted;
    add(change, kept_by_desk_.dental_case(pieces, after > 0), id, after, after > 0 ? "closed" : "added");
  };
  keep_case(0);
  for (int round = 0, rounds = 4 + static_cast<int>(draw(2)); round < rounds && done_ < wanted_; ++round) fire(change, pieces, round);
  if (wanted_ - done_ > 200) keep_case(1);
  if (cases_ % cases_a_check == 0) check_furnace(change, draw(furnace_versions_.size()));
  if (cases_ % (10 * cases_a_check) == 0) change_program(change, draw(programs));
}

void ManyYears::choose_furnace_and_program() {
  const std::size_t furnace = draw(furnace_versions_.size()), program = draw(programs);
  with_[Open::furnace] = fmt::format("furnace-{}", furnace);
  with_[Open::furnace_version] = std::to_string(std::max(1, furnace_versions_[furnace]));
  with_[Open::program] = fmt::format("program-{}", program);
  with_[Open::program_version] = std::to_string(std::max(1, program_versions_[program]));
  with_[Open::inputs_hash] = fmt::format("{:016x}{:016x}{:016x}{:016x}", random_(), random_(), random_(), random_());
  constexpr std::int64_t minute = 60'000;
  with_[Open::planned_for] = desk::utc_text(now_ms() - 7 * minute);
  with_[Open::started] = desk::utc_text(now_ms());
  with_[Open::ended] = desk::utc_text(now_ms() + 31 * minute);
}

void ManyYears::fire(Change& change, std::size_t pieces, int round) {
  const std::string id = fmt::format("{}-{}", with_[Open::of_case], round + 1);
  choose_furnace_and_program();
  with_[Open::firing] = id;
  for (const bool powder : {false, true})
    with_[powder ? Open::powder : Open::water] =
        lot_name(powder, std::max<std::int64_t>(1, lots_[powder] - static_cast<std::int64_t>(draw(2))));
  with_[Open::piece_version] = round > 2 ? "2" : "1";
  add(change, kept_by_desk_.bench_step(pieces, round == 0), id + "-step", 0, "added");
  const OpenFiring& firing = kept_by_desk_.firing(pieces);
  add(change, firing.states[0], id, 0, "planned");
  add(change, firing.rehearsals[draw(firing.rehearsals.size())], id, 0, "rehearsed");
  add(change, firing.states[1], id, 1, "started");
  add(change, firing.states[2], id, 2, "ended");
  if (round == 2)
    for (std::size_t i = 0; i < pieces; ++i) add(change, kept_by_desk_.piece(i, true), with_[Open::piece_1 + i], 1, "changed");
  if (draw(200) == 0) add(change, kept_by_desk_.deviation(), id + "-left", 0, "added");
  ++done_;
}

std::optional<Change> ManyYears::next() {
  if (done_ >= wanted_) return std::nullopt;
  indexes_.clear();
  Change change;
  change.who = {"mk", "named", desk::utc_text(now_ms()), "Europe/Berlin"};
  if (!begun_) begin(change);
  while (change.documents.size() < documents_a_change && done_ < wanted_) new_case(change);
  return change;
}

Change ManyYears::one_firing(int number) {
  Change change;
  change.who = opening_of_many().who;
  const std::string id = fmt::format("single-{}", number);
  choose_furnace_and_program();
  with_[Open::of_case] = id;
  with_[Open::piece_version] = "1";
  for (std::size_t i = 0; i < 3; ++i) with_[Open::piece_1 + i] = fmt::format("{}-{}", id, i);
  const OpenFiring& firing = kept_by_desk_.firing(3);
  add(change, firing.states[0], id, 0, "planned");
  add(change, firing.rehearsals[0], id, 0, "rehearsed");
  return change;
}

}  // namespace heatwork::store_proof
