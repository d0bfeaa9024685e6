#include "tests/store/many.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <filesystem>
#include <string_view>

#include "desk/lab/local_time.h"
#include "desk/lab/rehearsal_document.h"
#include "desk/rehearse_files.h"

namespace heatwork::store_proof {

using records::Change;
using records::NewVersion;

namespace {

constexpr std::int64_t ms_a_firing_of_a_furnace = 10LL * 365 * 24 * 3600 * 1000 / 30'000;  ///< 30 000 in ten years
constexpr int programs = 12;
constexpr int cases_a_lot = 25;

std::string text_of(std::string_view line) {
  const auto from = line.find('"'), to = line.rfind('"');
  return from == std::string_view::npos || to <= from ? "" : std::string(line.substr(from + 1, to - from - 1));
}

NewVersion version(std::string kind, std::string id, int after, std::string body, std::string action) {
  NewVersion made;
  made.kind = std::move(kind);
  made.id = std::move(id);
  made.after = after;
  made.body = std::move(body);
  made.action = std::move(action);
  return made;
}

std::string swapped(std::string text, std::string_view from, std::string_view to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) text.replace(at, from.size(), to);
  return text;
}

std::string piece_body(const std::string& name, const std::string& code, int layers) {
  std::string body = fmt::format(
      "format = 1\n\n[piece]\nname = \"{}\"\nlabel = \"crown of {}\"\nshape = \"crown\"\nteeth = [16]\nsupport = \"pins\"\n", name, code);
  for (const char* section : {"occlusal", "wall", "margin"}) {
    body += fmt::format("\n[[piece.section]]\nname = \"{}\"\nform = \"shell\"\ninner_radius = \"3.4 mm\"\ninside = \"mass\"\n", section);
    body += "inner_mass = { heat_capacity = \"5300 J/(m2 K)\", gap = \"370 W/(m2 K)\" }\narea = \"117 mm2\"\n";
    body += "\n[[piece.section.layer]]\nmaterial = \"zirconia-3y\"\nthickness = \"0.7 mm\"\n";
    for (int layer = 0; layer < layers; ++layer)
      body += "\n[[piece.section.layer]]\nmaterial = \"zirconia-veneer\"\nthickness = \"0.9 mm\"\ngreen = true\nliquid = \"water\"\n";
  }
  return body;
}

struct FiringText {
  std::string name, program, furnace, at;
  std::vector<std::string> pieces;
  int furnace_version = 1;
};

std::string firing_body(const FiringText& firing, bool ended) {
  std::string body = fmt::format(
      "format = 1\n\n[firing]\nname = \"{}\"\nlabel = \"\"\nstage = \"dentine\"\ntray = \"light\"\nfurnace = \"{}\"\nprogram = \"{}\"\n"
      "instruction = \"dentine-on-zirconia-sheet\"\n",
      firing.name, firing.furnace, firing.program.substr(0, firing.program.find('@')));
  for (const std::string& piece : firing.pieces) body += fmt::format("\n[[firing.piece]]\npiece = \"{}\"\nplace = \"between\"\n", piece);
  body += "\n[firing.chamber]\ncold = false\nsince_last_firing = \"13 min\"\nroom = \"23 \u00b0C\"\nroom_humidity = \"47 %\"\n";
  body += fmt::format("\n[firing.record]\nstate = \"{}\"\nstarted = \"{}\"\nstarted_by = \"mk\"\nread_back = \"as shown\"\n",
                      ended ? "ended" : "started", firing.at);
  if (ended) body += fmt::format("ended = \"{}\"\nended_by = \"mk\"\n", firing.at);
  const auto used = [&](std::string_view kind, std::string_view name, std::string_view number) {
    body += fmt::format("\n[[firing.record.used]]\nkind = \"{}\"\nname = \"{}\"\nversion = {}\n", kind, name, number);
  };
  used("furnace", firing.furnace, std::to_string(firing.furnace_version));
  used("program", firing.program.substr(0, firing.program.find('@')), firing.program.substr(firing.program.find('@') + 1));
  used("tray", "light", "1");
  for (const std::string& piece : firing.pieces) used("piece", piece, "1");
  for (const char* material : {"zirconia-3y", "zirconia-veneer", "water"})
    body += fmt::format("\n[[firing.record.used]]\nkind = \"material\"\nname = \"{}\"\nsnapshot = \"{:064x}\"\n", material, 77);
  if (!ended) return body;
  body += "\n[firing.record.measured]\nhighest_display = \"947 \u00b0C\"\nhold = \"1 min\"\nlowest_pressure = \"41 mbar\"\n";
  for (const std::string& piece : firing.pieces)
    body += fmt::format("\n[[firing.record.result]]\npiece = \"{}\"\noutcome = \"as wanted\"\nlooked_like = \"0 K\"\nseen = \"\"\n", piece);
  return body;
}

}  // namespace

records::Index index_of_many(const records::Document& document) {
  records::Index index;
  index.label = document.id;
  if (document.kind == "rehearsal") return index;
  std::string furnace, program, number;
  std::vector<std::string> pieces, lots;
  std::string_view section, left = document.body;
  bool of_program = false;
  while (!left.empty()) {
    const auto end = std::min(left.find('\n'), left.size());
    const std::string_view line = left.substr(0, end);
    left.remove_prefix(std::min(end + 1, left.size()));
    const auto is = [&](std::string_view key) { return line.rfind(key, 0) == 0; };
    if (is("[")) section = line, of_program = false;
    if (is("furnace = ")) furnace = text_of(line);
    if (is("program = ")) program = text_of(line);
    if (is("piece = ") && section == "[[firing.piece]]") pieces.push_back(text_of(line));
    if (is("pieces = ")) pieces.push_back(text_of(line));
    if (is("lots = ")) lots.push_back(text_of(line));
    if (is("kind = \"program\"")) of_program = true;
    if (is("version = ") && of_program) number = std::string(line.substr(10));
    if (is("state = ")) index.state = text_of(line);
    if (is("good = ")) index.state = line == "good = true" ? "good" : "bad";
    if (is("started = ") || is("at = ")) index.at_ms = desk::utc_ms(text_of(line));
    if (is("label = ")) index.words = text_of(line);
    if (is("next = ") || is("expires = ")) index.dues.push_back({text_of(line), is("next") ? "check" : "expires"});
  }
  if (document.kind == "firing")
    for (const std::string& piece : pieces) index.uses.push_back({index.at_ms, piece, furnace, program + "@" + number, ""});
  if (document.kind == "bench step")
    for (const std::string& piece : pieces)
      for (const std::string& lot : lots) index.uses.push_back({index.at_ms, piece, "", "", lot});
  return index;
}

records::Opening opening_of_many() {
  records::Opening opening;
  opening.index_of = index_of_many;
  opening.make = true;
  opening.who = {"mk", "named", "2026-11-25T17:11:04.123Z", "Europe/Berlin"};
  return opening;
}

ManyYears::ManyYears(std::int64_t firings, std::uint64_t seed)
    : wanted_(firings), furnaces_(static_cast<int>(std::clamp<std::int64_t>(firings / 5'000, 1, 50))), random_(seed) {
  const auto demo = std::filesystem::path(HEATWORK_SOURCE_DIR) / "data/demo/firing.toml";
  rehearsal_ = desk::write_rehearsal_document(desk::rehearsal_document(desk::rehearse_file(demo.string()), 2, {}));
  furnace_versions_.assign(static_cast<std::size_t>(furnaces_), 0);
  program_versions_.assign(programs, 0);
}

std::int64_t ManyYears::now_ms() const {
  return begin_ms + done_ * ms_a_firing_of_a_furnace / furnaces_;
}
std::int64_t ManyYears::end_ms() const {
  return begin_ms + wanted_ * ms_a_firing_of_a_furnace / furnaces_;
}

std::string ManyYears::program_now(std::uint64_t which) const {
  return fmt::format("program-{}@{}", which, program_versions_[which]);
}

void ManyYears::begin(Change& change) {
  change.documents.push_back(version("tray", "light", 0, "format = 1\n\n[tray]\nname = \"light\"\nmass = \"31 g\"\n", "added"));
  for (int furnace = 0; furnace < furnaces_; ++furnace) check_furnace(change, furnace);
  begun_ = true;
}

void ManyYears::check_furnace(Change& change, int furnace) {
  int& stands = furnace_versions_[static_cast<std::size_t>(furnace)];
  ++checks_;
  const std::string name = fmt::format("furnace-{}", furnace), at = desk::utc_text(now_ms());
  change.documents.push_back(version("check", fmt::format("check-{}-{}", furnace, checks_), 0,
                                     fmt::format("format = 1\n\n[check]\nname = \"check-{}-{}\"\nfurnace = \"{}\"\nof = \"temperature\"\n"
                                                 "good = {}\nerror = \"3 K\"\nat = \"{}\"\nperson = \"mk\"\nnext = \"2027-01-{:02}\"\n",
                                                 furnace, checks_, name, draw(10) > 0, at, 1 + draw(28)),
                                     "added"));
  change.documents.push_back(version(
      "furnace", name, stands,
      fmt::format("format = 1\n\n[furnace]\nname = \"{}\"\nlabel = \"{} of the group\"\ncorrection = \"{} K\"\n", name, name, stands % 7),
      stands ? "changed" : "added"));
  ++stands;
  if (furnace % 5 != 0 && stands > 1) return;
  const std::uint64_t which = draw(programs);
  for (std::uint64_t program = 0; program < programs; ++program) {
    int& of = program_versions_[program];
    if (of > 0 && (program != which || draw(6) > 0)) continue;
    change.documents.push_back(version(
        "program", fmt::format("program-{}", program), of,
        fmt::format("format = 1\n\n[program]\nname = \"program-{}\"\nlabel = \"dentine {}\"\nentry = \"{} \u00b0C\"\nclosing = \"4 min\"\n",
                    program, program, 403 + of % 37),
        of ? "changed" : "added"));
    ++of;
  }
}

void ManyYears::new_case(Change& change) {
  const std::string code = fmt::format("case-{}", ++cases_);
  if ((cases_ - 1) % cases_a_lot == 0) {
    const std::string lot = fmt::format("lot-{}", ++lots_);
    change.documents.push_back(
        version("lot", lot, 0,
                fmt::format("format = 1\n\n[lot]\nname = \"{}\"\nmaterial = \"zirconia-veneer\"\ncode = \"{}\"\n"
                            "opened = \"2024-03-11\"\n{}",
                            lot, random_() % 1'000'000, draw(50) == 0 ? fmt::format("expires = \"2027-{:02}-17\"\n", 1 + draw(12)) : ""),
                "added"));
  }
  std::vector<std::string> pieces;
  std::string names;
  for (std::uint64_t i = 0, count = 1 + draw(5); i < count; ++i) {
    pieces.push_back(fmt::format("piece-{}-{}", cases_, i));
    names += fmt::format("{}\"{}\"", i ? ", " : "", pieces.back());
    change.documents.push_back(version("piece", pieces.back(), 0, piece_body(pieces.back(), code, 1), "added"));
  }
  change.documents.push_back(version("case", code, 0,
                                     fmt::format("format = 1\n\n[case]\nname = \"{}\"\nteeth = [16, 24]\npiece = [{}]\nordered = "
                                                 "\"2026-11-11\"\nwanted = \"2026-11-25\"\nclosed = true\n",
                                                 code, names),
                                     "added"));
  for (int round = 0, rounds = 4 + static_cast<int>(draw(2)); round < rounds && done_ < wanted_; ++round) fire(change, code, pieces, round);
  if (cases_ % 40 == 0) check_furnace(change, static_cast<int>(draw(static_cast<std::uint64_t>(furnaces_))));
}

void ManyYears::fire(Change& change, const std::string& code, const std::vector<std::string>& pieces, int round) {
  const std::uint64_t furnace = draw(static_cast<std::uint64_t>(furnaces_));
  const FiringText firing{fmt::format("{}-{}", code, round + 1),
                          program_now(draw(programs)),
                          fmt::format("furnace-{}", furnace),
                          desk::utc_text(now_ms()),
                          pieces,
                          furnace_versions_[furnace]};
  std::string step = fmt::format("format = 1\n\n[bench_step]\nname = \"{}-step\"\nwork = \"build-up\"\n", firing.name);
  for (const std::string& piece : pieces) step += fmt::format("pieces = \"{}\"\n", piece);
  step += fmt::format("lots = \"lot-{}\"\nat = \"{}\"\nperson = \"mk\"\n", 1 + (lots_ - 1) - static_cast<std::int64_t>(draw(2)) % lots_,
                      firing.at);
  change.documents.push_back(version("bench step", firing.name + "-step", 0, std::move(step), "added"));
  change.documents.push_back(version("firing", firing.name, 0, firing_body(firing, false), "started"));
  std::string rehearsal = swapped(rehearsal_, "\"firing\":\"firing\"", fmt::format("\"firing\":\"{}\"", firing.name));
  rehearsal = swapped(swapped(std::move(rehearsal), "crown-16", pieces.front()), "bridge-24-26", pieces.back());
  change.documents.push_back(version("rehearsal", firing.name, 0, std::move(rehearsal), "kept"));
  change.documents.push_back(version("firing", firing.name, 1, firing_body(firing, true), "ended"));
  if (round == 2)
    for (const std::string& piece : pieces) change.documents.push_back(version("piece", piece, 1, piece_body(piece, code, 2), "changed"));
  if (draw(200) == 0)
    change.documents.push_back(version("deviation", firing.name + "-left", 0,
                                       fmt::format("format = 1\n\n[deviation]\nname = \"{}-left\"\nfrom = \"instruction, hold\"\nfiring = "
                                                   "\"{}\"\ndecision = \"use as it is\"\nreleased_by = \"mk\"\n",
                                                   firing.name, firing.name),
                                       "added"));
  ++done_;
}

std::optional<Change> ManyYears::next() {
  if (done_ >= wanted_) return std::nullopt;
  Change change;
  change.who = {"mk", "named", desk::utc_text(now_ms()), "Europe/Berlin"};
  if (!begun_) begin(change);
  while (change.documents.size() < 500 && done_ < wanted_) new_case(change);
  return change;
}

Change ManyYears::one_firing(int number) {
  Change change;
  change.who = opening_of_many().who;
  const std::string name = fmt::format("single-{}", number);
  const std::vector<std::string> pieces = {name + "-a", name + "-b", name + "-c"};
  const FiringText firing{name, program_now(0), "furnace-0", desk::utc_text(end_ms()), pieces, furnace_versions_[0]};
  change.documents.push_back(version("firing", name, 0, firing_body(firing, true), "ended"));
  change.documents.push_back(version("rehearsal", name, 0, rehearsal_, "kept"));
  return change;
}

}  // namespace heatwork::store_proof
