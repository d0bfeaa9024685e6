#include "desk/lab/demo_lab.h"

#include <fmt/format.h>
#include <stdlib.h>

#include <algorithm>
#include <array>
#include <deque>
#include <filesystem>
#include <mutex>
#include <optional>
#include <system_error>
#include <utility>
#include <vector>

#include "desk/errors.h"
#include "desk/folder_files.h"
#include "desk/lab/bench_work.h"
#include "desk/lab/demo_photo.h"
#include "desk/lab/deviations.h"
#include "desk/lab/firing_work.h"
#include "desk/lab/keep_rehearsal.h"
#include "desk/lab/kept_change.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/lab_settings.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_place.h"
#include "desk/lab/store_shelf.h"
#include "desk/lab/take_in.h"
#include "trade/records.h"
#include "trade/sentences.h"
#include "trade/shipped.h"

namespace heatwork::desk {
namespace {

namespace fs = std::filesystem;
using trade::Noun;

constexpr std::string_view invented = "invented for the demo lab", called = "Demo lab";
constexpr std::int64_t minute = 60'000, day = 24 * 60 * minute;

/// Demo files that show one fault each are for the command line: a lab of them would have nothing to show but faults.
constexpr std::array<std::string_view, 4> left_out{"furnace-window-leaking", "piece-crown-16-thick", "program-dentine-released-early",
                                                   "program-dentine-thirty-short"};

/// A folder of this process alone that goes with it.
class OwnFolder {
 public:
  OwnFolder() {
    std::string path = (fs::temp_directory_path() / "heatwork-demo-XXXXXX").string();
    if (::mkdtemp(path.data()) == nullptr)
      throw Failure(ErrorWord::cannot_write,
                    fmt::format("No folder can be made in {} for the demo lab.", fs::temp_directory_path().string()));
    path_ = path;
  }
  OwnFolder(const OwnFolder&) = delete;
  OwnFolder& operator=(const OwnFolder&) = delete;
  ~OwnFolder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  [[nodiscard]] std::string path() const { return path_.string(); }

 private:
  fs::path path_;
};

/// Labels, notes and reasons of the demo lab as its reader says them.
class DemoWords {
 public:
  explicit DemoWords(trade::Language language) : words_(trade::words_of(language)) {
    const std::string file = fmt::format("words/demo/{}.toml", trade::word(language));
    if (language != trade::Language::english) said_.add(file, trade::shipped_text(file));
  }
  /// A text whole; English where no other is written.
  [[nodiscard]] std::string operator()(const std::string& english) const {
    return said_.size() == 0 ? english : said_.say(english, words_).value_or(english);
  }
  /// The value of "key=value".
  [[nodiscard]] std::string of_set(const std::string& set) const {
    const std::size_t value = set.find('=') + 1;
    return set.substr(0, value) + (*this)(set.substr(value));
  }
  /// Each label, note and next step of a file.
  [[nodiscard]] std::string of_file(std::string_view text) const {
    std::string all;
    for (std::size_t at = 0; at < text.size();) {
      const std::size_t end = std::min(text.find('\n', at), text.size() - 1) + 1;
      const std::string line(text.substr(at, end - at));
      at = end;
      const std::size_t open = line.find(" = \""), close = line.rfind('"');
      const std::string key = line.substr(0, std::min(open, line.size()));
      const bool told = (key == "label" || key == "note" || key == "next_step") && close > open + 3;
      all += told ? line.substr(0, open + 4) + (*this)(line.substr(open + 4, close - open - 4)) + line.substr(close) : line;
    }
    return all;
  }

 private:
  const trade::Words& words_;
  trade::Sentences said_;
};

/// Fills one store, step by step, as its people would.
class Filling {
 public:
  Filling(AskedLab asked, const Clock& clock, trade::Language language)
      : asked_(std::move(asked)),
        said_(language),
        now_ms_(clock.now_ms() / minute * minute),
        zone_(place_of(asked_).zone),
        today_(local_day(now_ms_, zone_)) {}

  void fill() {
    make_store(asked_);
    add(Noun::lab, std::string(usual_lab_document),
        {fmt::format("label={}", called), "note=Nothing in this store happened: it is there to play with.", "demo=true"});
    write_files();
    take_in(asked_, folder_.path(), said_(std::string(invented)));
    cases();
    program_of_two_versions();
    checks();
    fired_yesterday();
    fired_now();
    planned();
    deviations();
  }

 private:
  [[nodiscard]] std::string at(std::int64_t from_now_ms) const { return utc_text(now_ms_ + from_now_ms); }
  [[nodiscard]] std::string on(int days) const { return day_after(today_, days); }

  void add(Noun noun, const std::string& name, std::vector<std::string> set) {
    for (std::string& one : set) one = said_.of_set(one);
    add_kept(asked_, noun, {{name}, std::move(set), said_(std::string(invented))});
  }
  void change(Noun noun, const std::string& name, std::vector<std::string> set, const std::string& reason) {
    for (std::string& one : set) one = said_.of_set(one);
    change_kept(asked_, noun, {name, "", std::move(set), {}, 0, said_(reason)});
  }

  /// Firings come later, planned for a time; whatever else ships goes in as it is.
  void write_files() {
    constexpr std::string_view demo = "demo/", ending = ".toml";
    std::deque<std::string> texts;  // what the files keep views of
    std::vector<FolderFile> files;
    for (const trade::ShippedFile& file : trade::shipped_files()) {
      if (!file.path.starts_with(demo) || file.text.find("\n[firing]\n") != std::string_view::npos) continue;
      const std::string name(file.path.substr(demo.size(), file.path.size() - demo.size() - ending.size()));
      if (std::find(left_out.begin(), left_out.end(), name) != left_out.end()) continue;
      texts.push_back(said_.of_file(file.text));
      files.push_back({name + ".toml", texts.back()});
    }
    write_folder(folder_.path(), files, "Make it again.");
  }

  void rehearse(const std::string& firing, const std::string& planned_for) {
    const std::string text = fmt::format("{}\n[firing.record]\nstate = \"planned\"\nplanned_for = \"{}\"\n",
                                         said_.of_file(trade::shipped_text(fmt::format("demo/{}.toml", firing))), planned_for);
    const std::string file = firing + ".toml";
    write_folder(folder_.path(), {{file, text}}, "Make it again.");
    rehearse_and_keep(fmt::format("{}/{}", folder_.path(), file), asked_, "");
  }

  void cases() {
    change(Noun::dental_case, "k-0417", {"ordered=" + on(-9), "wanted=" + on(2), "next_step=correction firing, then look at the contact"},
           "the dentine is fired");
    add(Noun::dental_case, "k-0423",
        {"label=veneer on the central incisor", "teeth=11", "pieces=veneer-11", "ordered=" + on(-6), "wanted=" + on(1),
         "next_step=glaze firing"});
    add(Noun::dental_case, "k-0425",
        {"label=crown from a block", "teeth=14", "pieces=crown-14", "ordered=" + on(-3), "wanted=" + on(3), "next_step=grind, then glaze"});
    add(Noun::dental_case, "k-0429",
        {"label=bridge, three units", "teeth=24, 25, 26", "pieces=bridge-24-26", "ordered=" + on(-12), "wanted=" + on(4),
         "next_step=fire the dentine again"});
    add(Noun::dental_case, "k-0431",
        {"label=inlay", "teeth=36", "pieces=inlay-36", "ordered=" + on(-2), "wanted=" + on(6), "next_step=stain firing"});
    add(Noun::dental_case, "k-0402", {"label=crown on metal, before", "teeth=46", "ordered=" + on(-30), "wanted=" + on(-8), "closed=true"});
    change(Noun::lot, "veneer-31-7", {"expires=" + on(20)}, "read again on the jar");
  }

  void program_of_two_versions() {
    change(Noun::program, "glaze-film", {"heating[1].hold=1 min 5 s"}, "gloss was short on the tab, 10 s more");
    set_lock(asked_, Noun::program, "glaze-film", true, said_("proven on two tabs"));
  }

  void checks() {
    add(Noun::check, "corner-wire",
        {"label=silver wire in the corner", "furnace=corner", "of=temperature", "good=true", "limit=8 K", "error=4 K",
         "standard_uncertainty=1.3 K", "reference=silver-wire-3", "method=wire on a pin, three firings", "at=" + at(-12 * day),
         "person=" + asked_.person, "next=" + on(5)});
    add(Noun::check, "window-pump",
        {"label=pump at the window", "furnace=window", "of=vacuum", "good=false", "method=time to 60 mbar, twice as long as last year",
         "at=" + at(-41 * day), "person=" + asked_.person, "next=" + on(-3)});
  }

  void step(const std::string& name, const std::string& work, const std::string& piece, const std::string& note, std::int64_t from_now) {
    record_step(asked_, {name,
                         work,
                         {piece},
                         work == "build-up" ? std::vector<std::string>{"veneer-31-7"} : std::vector<std::string>{},
                         {},
                         said_(note),
                         at(from_now)});
  }

  /// Ended with its result, a photo, and work after it.
  void fired_yesterday() {
    step("crown-16-built", "build-up", "crown-16", "dentine and incisal", -day - 70 * minute);
    step("bridge-built", "build-up", "bridge-24-26", "dentine, three units", -day - 55 * minute);
    rehearse("firing", at(-day - 40 * minute));
    start_firing(asked_, {"firing", said_("top and hold as on the sheet"), at(-day - 40 * minute)});
    end_firing(asked_, {"firing",
                        {"crown-16=as wanted", "bridge-24-26=fire again"},
                        {"bridge-24-26=-9 K"},
                        {said_.of_set("bridge-24-26=surface still a little grainy at the pontic")},
                        "818 °C",
                        "1 min",
                        "",
                        "",
                        at(-day - 13 * minute)});
    keep_photo(asked_, "firing", demo_photo(), said_("crown and bridge as they came out, drawn for the demo lab"));
    step("contact-added", "build-up", "crown-16-correction", "contact to the second premolar", -50 * minute);
    step("bridge-ground", "grind", "bridge-24-26", "pontic", -35 * minute);
  }

  void fired_now() {
    rehearse("crystallise-firing", at(-10 * minute));
    start_firing(asked_, {"crystallise-firing", "", at(-7 * minute)});
  }

  void planned() {
    rehearse("correction-firing", at(40 * minute));
    rehearse("glaze-firing", at(95 * minute));
    rehearse("stain-firing", at(day + 25 * minute));
    rehearse("metal-ceramic-firing", at(day + 80 * minute));
  }

  void deviations() {
    open_deviation(asked_, {"hold-at-the-sheets-end",
                            said_("instruction dentine-on-zirconia-sheet, looked like its sample"),
                            said_("bridge came out 9 K too cold to the eye"),
                            "firing",
                            {"bridge-24-26"},
                            at(-day),
                            said_(std::string(invented))});
    decide_deviation(asked_, {"hold-at-the-sheets-end", "fire again", said_("grainy at the pontic only"), said_("one tab, sound")});
    release_deviation(asked_, "hold-at-the-sheets-end", said_("fire again with the tab beside it"));
    open_deviation(asked_, {"pump-slow",
                            said_("check of the vacuum at the window every 30 days"),
                            said_("the pump takes twice as long as last year"),
                            "",
                            {},
                            at(-2 * day),
                            said_(std::string(invented))});
  }

  AskedLab asked_;
  DemoWords said_;
  std::int64_t now_ms_;
  std::string zone_, today_;
  OwnFolder folder_;
};

AskedLab with_person(AskedLab asked) {
  if (asked.person.empty()) asked.person = "demo";
  return asked;
}

/// Together with what SQLite keeps beside it.
void remove_file_of_store(const std::string& file) {
  std::error_code error;
  for (const char* ending : {"-wal", "-shm", ""}) {
    fs::remove(file + ending, error);
    if (error)
      throw Failure(ErrorWord::cannot_write, fmt::format("The demo lab at {} cannot be taken away: {}.", file + ending, error.message()));
  }
}

void must_be_free(const records::Address& address) {
  std::error_code error;
  if (fs::symlink_status(address.where, error).type() != fs::file_type::not_found)
    throw Failure(ErrorWord::already_there, fmt::format("Something stands at {} already; nothing was made.", address.shown()));
}

/// Filled beside its place, so that nobody meets a lab half made; what never took its place goes again. One at a time.
class FilledBeside {
 public:
  FilledBeside(const AskedLab& asked, const std::string& file, const Clock& clock, trade::Language language)
      : one_at_a_time_(making), file_(file), made_(file + ".new") {
    remove_file_of_store(made_);
    AskedLab beside = asked;
    beside.store = made_;
    try {
      Filling(beside, clock, language).fill();
    } catch (...) {
      remove_file_of_store(made_);
      throw;
    }
  }
  FilledBeside(const FilledBeside&) = delete;
  FilledBeside& operator=(const FilledBeside&) = delete;
  ~FilledBeside() {
    std::error_code ignored;
    fs::remove(made_, ignored);
  }
  void take_place() const { fs::rename(made_, file_); }

 private:
  static inline std::mutex making;
  const std::lock_guard<std::mutex> one_at_a_time_;
  std::string file_, made_;
};

}  // namespace

std::string demo_store_of(const AskedLab& asked) {
  const StorePlace place = place_of(asked);
  constexpr std::string_view name = "demo.sqlite";
  if (place.address.engine == records::Engine::sqlite) return (fs::path(place.address.where).parent_path() / name).string();
  const Variables variables = variables_of_process();
  const auto none = [&](const char* variable) {
    return std::string_view(variable) == "HEATWORK_STORE" ? std::string() : variables(variable);
  };
  return (fs::path(store_address("", Settings{}, none)).parent_path() / name).string();
}

CareAnswer make_demo_lab(const AskedLab& asked, trade::Language language, const Clock& clock) {
  const AskedLab whole = with_person(asked);
  const StorePlace place = place_of(whole);
  const std::string address = place.address.shown();
  if (place.address.engine != records::Engine::sqlite) {
    Filling(whole, clock, language).fill();
  } else {
    must_be_free(place.address);
    const FilledBeside filled(whole, place.address.where, clock, language);
    must_be_free(place.address);  // still
    filled.take_place();
  }
  return {care_line("Made", fmt::format("a demo lab at {}: nothing in it happened", address)),
          JsonObject{{"format", 1}, {"store", address}, {"demo", true}}, false};
}

CareAnswer make_demo_lab_anew(const AskedLab& asked, trade::Language language, const Clock& clock) {
  const StorePlace place = place_of(asked);
  if (place.address.engine != records::Engine::sqlite)
    throw Failure(ErrorWord::not_allowed, fmt::format("{} is no file: a demo lab is made anew in a file alone.", place.address.shown()));
  const std::string file = place.address.where;
  const LabSettings before = lab_settings(asked);
  std::error_code error;
  if (fs::symlink_status(file, error).type() != fs::file_type::not_found && !before.demo)
    throw Failure(ErrorWord::not_allowed, fmt::format("The store {} is no demo lab; nothing was changed.", place.address.shown()));
  const FilledBeside filled(with_person(asked), file, clock, language);
  remove_file_of_store(file);
  filled.take_place();
  if (!before.says_language.empty() || !before.says_units.empty())
    set_lab(with_person(asked), {std::nullopt, before.says_language, before.says_units, 0, DemoWords(language)(std::string(invented))});
  return {care_line("Made", fmt::format("the demo lab at {} anew: nothing in it happened", place.address.shown())),
          JsonObject{{"format", 1}, {"store", place.address.shown()}, {"demo", true}}, false};
}

std::optional<trade::Language> language_of_demo_lab(const AskedLab& asked) {
  try {
    records::Store store = opened(place_of(asked), Reading::only);
    const auto first = store.find(trade::word(Noun::lab), std::string(usual_lab_document), 1);  // a version kept never changes
    if (!first) return std::nullopt;
    const auto lab = read_kept<trade::Lab>(kept_source(*first));
    for (const auto language : {trade::Language::english, trade::Language::german})
      if (lab.demo && DemoWords(language)(std::string(called)) == lab.label) return language;
  } catch (const records::StoreError&) {  // whoever asks for what stands in it is told
  }
  return std::nullopt;
}

}  // namespace heatwork::desk
