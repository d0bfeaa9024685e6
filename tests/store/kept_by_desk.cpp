#include "tests/store/kept_by_desk.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <stdexcept>

#include "desk/demo.h"
#include "desk/lab/index_of.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/rehearsal_document.h"
#include "desk/rehearse_files.h"
#include "trade/shipped.h"
#include "trade/writer.h"

namespace heatwork::store_proof {

namespace fs = std::filesystem;

namespace {

constexpr std::array chambers = {"13 min", "41 min", "7 min", "2 h"};

std::string word(Open::At open) {
  return std::string(open_word(open));
}

std::string demo(std::string_view file) {
  const auto text = trade::shipped_text(fmt::format("demo/{}.toml", file));
  if (text.empty()) throw std::logic_error(fmt::format("The demo lab has no {}.", file));
  return std::string(text);
}

/// The first line of a key with another value, as it stands in the file.
std::string with(std::string text, std::string_view key, std::string_view value) {
  const std::string line = fmt::format("\n{} = ", key);
  const auto from = text.find(line);
  if (from == std::string::npos) throw std::logic_error(fmt::format("A text has no {}.", key));
  const auto to = text.find('\n', from + 1);
  return text.replace(from, to - from, fmt::format("{}{}", line, value));
}

std::string named(std::string text, std::string_view by) {
  return with(std::move(text), "name", fmt::format("\"{}\"", by));
}

std::string piece_text(std::size_t which) {
  return demo(which % 2 == 0 ? "piece-crown-16" : "piece-bridge-24-26");
}

/// As desk keeps it.
OpenDocument open(const std::string& text) {
  const desk::KeptText kept = desk::kept_text(trade::source_of("text of a proof", text));
  return {std::string(trade::word(kept.noun)), kept.body, desk::index_of};
}

/// [ "open-piece-1", ... ]
std::string names_of_pieces(std::size_t pieces) {
  std::string names;
  for (std::size_t i = 0; i < pieces; ++i)
    names += fmt::format("{}\"{}\"", i ? ", " : "", open_word(static_cast<Open::At>(Open::piece_1 + i)));
  return "[" + names + "]";
}

std::string firing_text(std::size_t pieces, std::string_view since) {
  std::string text = fmt::format(
      "format = 1\n\n[firing]\nname = \"{}\"\nlabel = \"dentine of {}\"\nstage = \"dentine\"\ntray = \"light\"\nfurnace = \"{}\"\n"
      "program = \"{}\"\ninstruction = \"dentine-on-zirconia-sheet\"\n",
      open_word(Open::name), open_word(Open::of_case), open_word(Open::furnace), open_word(Open::program));
  for (std::size_t i = 0; i < pieces; ++i)
    text += fmt::format("\n[[firing.piece]]\npiece = \"{}\"\nplace = \"between\"\n", open_word(static_cast<Open::At>(Open::piece_1 + i)));
  return text +
         fmt::format("\n[firing.chamber]\ncold = false\nsince_last_firing = \"{}\"\nroom = \"23 \u00b0C\"\nroom_humidity = \"47 %\"\n",
                     since);
}

/// A lab of its own in which the names are those left open.
class OpenLab {
 public:
  OpenLab() : folder_(fs::temp_directory_path() / fmt::format("heatwork-open-lab-{}", ::getpid())) {
    desk::write_demo(folder_.string());
    write("furnace", named(demo("furnace-corner"), open_word(Open::furnace)));
    write("program", named(demo("program-dentine-on-zirconia"), open_word(Open::program)));
    for (std::size_t i = 0; i < most_pieces; ++i)
      write(fmt::format("piece-{}", i), named(piece_text(i), open_word(static_cast<Open::At>(Open::piece_1 + i))));
  }
  ~OpenLab() {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }
  OpenLab(const OpenLab&) = delete;
  OpenLab& operator=(const OpenLab&) = delete;

  desk::Rehearsed rehearsed(std::size_t pieces, std::string_view since) {
    return desk::rehearse_file(write("firing", firing_text(pieces, since)));
  }

 private:
  std::string write(const std::string& of, const std::string& text) {
    const fs::path path = folder_ / fmt::format("open-{}.toml", of);
    std::ofstream(path) << text;
    return path.string();
  }
  fs::path folder_;
};

/// Which text each name stood for: the lab's own by version, what ships by its snapshot.
std::vector<desk::TextStoodFor> used_in(const desk::Rehearsed& rehearsed) {
  const auto& request = rehearsed.rehearsal.request;
  std::vector<desk::TextStoodFor> all;
  for (const trade::TextUsed& text : request.used) {
    const std::string what = fmt::format("{} {}", text.kind, text.name);
    const auto from =
        std::find_if(request.came_from.begin(), request.came_from.end(), [&](const auto& each) { return each.first == what; });
    desk::TextStoodFor used{{text.kind, text.name, 0, "", {}}, ""};
    if (from != request.came_from.end() && from->second.starts_with("shipped")) {
      used.name.snapshot = trade::blake2b_256(text.source->text);
      used.from = from->second;
    } else {
      const Open::At version = text.name == open_word(Open::furnace)          ? Open::furnace_version
                               : text.name == open_word(Open::program)        ? Open::program_version
                               : text.kind == trade::word(trade::Noun::piece) ? Open::piece_version
                                                                              : Open::places;
      used.name.version = version == Open::places ? 1 : std::stoi(word(version));
    }
    all.push_back(std::move(used));
  }
  return all;
}

std::string record_text(std::string_view state, const std::vector<desk::TextStoodFor>& used, std::size_t pieces) {
  std::string text = fmt::format("\n[firing.record]\nstate = \"{}\"\nplanned_for = \"{}\"\n", state, open_word(Open::planned_for));
  if (state != "planned")
    text += fmt::format("started = \"{}\"\nstarted_by = \"mk\"\nread_back = \"as keyed in\"\n", open_word(Open::started));
  if (state == "ended") text += fmt::format("ended = \"{}\"\nended_by = \"mk\"\n", open_word(Open::ended));
  for (const desk::TextStoodFor& each : used) {
    text += fmt::format("\n[[firing.record.used]]\nkind = \"{}\"\nname = \"{}\"\n", each.name.kind, each.name.name);
    text +=
        each.name.version > 0 ? fmt::format("version = {}\n", each.name.version) : fmt::format("snapshot = \"{}\"\n", each.name.snapshot);
  }
  if (state != "ended") return text;
  text +=
      "\n[firing.record.measured]\nhighest_display = \"817 \u00b0C\"\nhold = \"1 min 5 s\"\nlowest_pressure = \"61 mbar\"\nduration = "
      "\"31 min\"\n";
  for (std::size_t i = 0; i < pieces; ++i)
    text += fmt::format(
        "\n[[firing.record.result]]\npiece = \"{}\"\noutcome = \"as wanted\"\nlooked_like = \"0 K\"\nseen = \"even, edges as built\"\n",
        open_word(static_cast<Open::At>(Open::piece_1 + i)));
  return text;
}

}  // namespace

const KeptByDesk& KeptByDesk::of_this_program() {
  static const KeptByDesk all;
  return all;
}

KeptByDesk::KeptByDesk() {
  add_ground();
  OpenLab lab;
  std::set<std::string> snapshots;
  for (std::size_t pieces = 1; pieces <= most_pieces; ++pieces) {
    OpenFiring firing;
    for (const char* since : chambers) {
      const desk::Rehearsed rehearsed = lab.rehearsed(pieces, since);
      const auto used = used_in(rehearsed);
      desk::RehearsalDocument document = desk::rehearsal_document(rehearsed, 1, used);
      document.inputs_hash = word(Open::inputs_hash);
      firing.rehearsals.emplace_back("rehearsal", desk::write_rehearsal_document(document), desk::index_of);
      if (since != chambers.front()) continue;
      for (const char* state : {"planned", "started", "ended"})
        firing.states.push_back(open(firing_text(pieces, since) + record_text(state, used, pieces)));
      for (const trade::TextUsed& text : rehearsed.rehearsal.request.used) {
        const std::string hash = trade::blake2b_256(text.source->text);
        const bool shipped = std::any_of(used.begin(), used.end(), [&](const auto& each) { return each.name.snapshot == hash; });
        if (shipped && snapshots.insert(hash).second)
          ground_.emplace_back(hash, OpenDocument("snapshot", text.source->text, desk::index_of, hash));
      }
    }
    firings_.push_back(std::move(firing));
  }
  for (std::size_t pieces = 1; pieces <= most_pieces; ++pieces) add_work(pieces);
  add_pieces();
  add_care();
}

void KeptByDesk::add_ground() {
  for (const char* file : {"tray-light", "tray-middle", "tray-heavy", "instruction-dentine-on-zirconia-sheet",
                           "program-dentine-on-zirconia", "support-pins"}) {
    const desk::KeptText kept = desk::kept_text(trade::source_of(file, demo(file)));
    ground_.emplace_back(kept.name, open(named(demo(file), open_word(Open::name))));
  }
  ground_.emplace_back(
      "mk", open(fmt::format("format = 1\n\n[person]\nname = \"{}\"\nrole = \"release\"\nmay_set_up = true\n", open_word(Open::name))));
}

void KeptByDesk::add_pieces() {
  for (std::size_t which : {0, 1}) {
    const std::string text =
        with(named(piece_text(which), open_word(Open::name)), "label", fmt::format("\"of {}\"", open_word(Open::of_case)));
    const std::string of = with(text, "support", fmt::format("\"pins\"\ncase = \"{}\"", open_word(Open::of_case)));
    pieces_.push_back(open(of));
    pieces_.push_back(open(with(of, "note", "\"a contact added\"")));
  }
}

void KeptByDesk::add_work(std::size_t pieces) {
  for (const char* work : {"work = \"stain\"\nlots = [\"open-powder\"]", "work = \"build-up\"\nlots = [\"open-powder\", \"open-water\"]"})
    bench_steps_.push_back(open(fmt::format("format = 1\n\n[bench_step]\nname = \"{}\"\n{}\npieces = {}\nat = \"{}\"\nperson = \"mk\"\n",
                                            open_word(Open::name), work, names_of_pieces(pieces), open_word(Open::started))));
  for (const bool closed : {false, true})
    cases_.push_back(
        open(fmt::format("format = 1\n\n[case]\nname = \"{}\"\nlabel = \"for {}\"\nteeth = [16, 24, 25, 26]\npieces = {}\nordered = "
                         "\"{}\"\nwanted = \"{}\"\n"
                         "next_step = \"{}\"\nclosed = {}\n",
                         open_word(Open::name), open_word(Open::code), names_of_pieces(pieces), open_word(Open::day),
                         open_word(Open::later_day), closed ? "" : "dentine firing", closed)));
}

void KeptByDesk::add_care() {
  for (const char* of : {"liquid = \"water\"", "material = \"zirconia-veneer\""})
    for (const bool used_up : {false, true})
      lots_.push_back(
          open(fmt::format("format = 1\n\n[lot]\nname = \"{}\"\n{}\ncode = \"{}\"\nopened = \"{}\"\nexpires = \"{}\"\nused_up = {}\n",
                           open_word(Open::name), of, open_word(Open::code), open_word(Open::day), open_word(Open::later_day), used_up)));
  for (const char* came_out : {"good = false\nerror = \"13 K\"", "good = true\nerror = \"3 K\""})
    checks_.push_back(open(fmt::format(
        "format = 1\n\n[check]\nname = \"{}\"\nfurnace = \"{}\"\nof = \"temperature\"\n{}\nstandard_uncertainty = \"2 K\"\nmethod = "
        "\"silver wire on the tray\"\nat = \"{}\"\nperson = \"mk\"\nnext = \"{}\"\n",
        open_word(Open::name), open_word(Open::furnace), came_out, open_word(Open::started), open_word(Open::later_day))));
  single_.push_back(
      open(with(named(demo("furnace-corner"), open_word(Open::name)), "checked", fmt::format("\"silver wire, {}\"", open_word(Open::day))) +
           fmt::format("\n[[furnace.due]]\nwhat = \"cleaning firing\"\non = \"{}\"\n", open_word(Open::later_day))));
  single_.push_back(open(
      with(named(demo("program-dentine-on-zirconia"), open_word(Open::name)), "entry", fmt::format("\"{}\"", open_word(Open::degrees)))));
  single_.push_back(
      open(fmt::format("format = 1\n\n[deviation]\nname = \"{}\"\nfrom = \"instruction, hold\"\nfound = \"held 20 s longer\"\nfiring = "
                       "\"{}\"\npieces = [\"{}\"]\n"
                       "decision = \"use as it is\"\nreason = \"looks as wanted\"\nfound_at = \"{}\"\nfound_by = \"mk\"\n",
                       open_word(Open::name), open_word(Open::firing), open_word(Open::piece_1), open_word(Open::started))));
}

}  // namespace heatwork::store_proof
