#include "desk/lab/keep_rehearsal.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <functional>

#include "desk/demo.h"
#include "desk/errors.h"
#include "desk/files.h"
#include "desk/lab/keep.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/rehearse_in_lab.h"
#include "desk/lab/store_shelf.h"
#include "records/store_for_tests.h"
#include "trade/mistake.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

class KeepRehearsalTest : public records::for_tests::OnEachEngine {
 protected:
  void SetUp() override {
    OnEachEngine::SetUp();
    if (IsSkipped()) return;
    write_demo((folder_ / "lab").string());
    asked_ = {address_.where, "mk"};
    (void)make_store(asked_);
  }

  [[nodiscard]] std::string at(const std::string& file) const { return (folder_ / "lab" / file).string(); }
  [[nodiscard]] KeptRehearsal kept(const std::string& firing, const std::string& reason = "") const {
    return rehearse_and_keep(firing, asked_, reason);
  }
  void alter(const std::string& file, const std::string& from, const std::string& to) const {
    std::string text = read_whole(at(file));
    const auto where = text.find(from);
    ASSERT_NE(where, std::string::npos) << file;
    write_whole(at(file), text.replace(where, from.size(), to));
  }

  [[nodiscard]] records::Store opened_store() const { return opened(place_of(asked_), Reading::and_writing); }

  /// The next version of a noun of the store, changed.
  template <class T>
  void change(records::Store& store, const std::string& name, const std::function<void(T&)>& how) const {
    const std::string kind(trade::word(trade::NounOf<T>::noun));
    const auto stands = store.find(kind, name);
    ASSERT_TRUE(stands);
    T noun = read_kept<T>(trade::source_of(name, stands->body));
    how(noun);
    auto next = records::for_tests::version(kind, name, stands->version, trade::write_noun(noun));
    (void)keep(place_of(asked_), store, records::for_tests::change({next}));
  }

  /// As a start leaves it: with what its newest rehearsal used.
  void start(records::Store& store, const std::string& name) const {
    const RehearsalDocument rehearsal = read_rehearsal_document(store.find(rehearsal_kind, name)->body);
    change<trade::Firing>(store, name, [&](trade::Firing& firing) {
      firing.record->state.value = trade::FiringState::started;
      firing.record->started = "2026-11-25T17:11:04Z";
      firing.record->started_by = "mk";
      for (const TextStoodFor& text : rehearsal.used)
        if (trade::noun_of(text.name.kind)) firing.record->used.push_back(text.name);
    });
  }

  AskedLab asked_;
};
HEATWORK_ON_EACH_ENGINE(KeepRehearsalTest);

template <class Call>
std::string refusal(Call&& call) {
  try {
    call();
  } catch (...) {
    return explain(std::current_exception()).sentence;
  }
  return "accepted";
}

TEST_P(KeepRehearsalTest, keeps_the_firing_its_rehearsal_and_all_it_hangs_on) {
  const KeptRehearsal first = kept(at("firing.toml"));
  EXPECT_EQ(first.kept.version, 1);
  EXPECT_EQ(first.kept.rehearsal, 1);
  EXPECT_EQ(first.kept.added, (std::vector<std::string>{"furnace corner", "program dentine-on-zirconia", "tray light", "piece crown-16",
                                                        "support pins", "piece bridge-24-26", "instruction dentine-on-zirconia-sheet"}));
  EXPECT_TRUE(first.kept.differ.empty());
  records::Store store = opened_store();
  EXPECT_EQ(firing_of(*store.find("firing", "firing")).record->state.value, trade::FiringState::planned);
  const RehearsalDocument document = read_rehearsal_document(store.find(rehearsal_kind, "firing")->body);
  ASSERT_EQ(document.states.size(), first.rehearsed.rehearsal.firing.end.size());
  EXPECT_EQ(document.states[0].points, first.rehearsed.rehearsal.firing.end[0].points);
  for (const TextStoodFor& text : document.used) {
    if (text.name.version > 0) {
      EXPECT_TRUE(store.find(text.name.kind, text.name.name, text.name.version)) << text.name.name;
    } else {
      const auto snapshot = store.find(snapshot_kind, text.name.snapshot);
      ASSERT_TRUE(snapshot) << text.name.name;
      EXPECT_EQ(trade::blake2b_256(snapshot->body), text.name.snapshot);
      EXPECT_EQ(text.from.rfind("shipped: ", 0), 0U) << text.from;
    }
  }
}

TEST_P(KeepRehearsalTest, by_its_name_it_is_judged_by_the_limits_kept_with_it) {
  write_whole(at("lab-limits.toml"), "format = 1\n\n[limits.shift]\nfirst = 6\nsecond = 17\nunit = \"K\"\nsource = \"the lab\"\n");
  const std::string head = kept(at("firing.toml")).kept.head;
  EXPECT_EQ(rehearse_in_lab("firing", asked_).limits.at("shift").second, 17);
  EXPECT_EQ(kept("firing").kept.head, head) << "the same again";
}

TEST_P(KeepRehearsalTest, the_same_again_keeps_nothing) {
  const std::string head = kept(at("firing.toml")).kept.head;
  for (const std::string& firing : {at("firing.toml"), std::string("firing"), std::string("firing@1")}) {
    const KeptRehearsal again = kept(firing);
    EXPECT_FALSE(again.kept.is_new) << firing;
    EXPECT_EQ(again.kept.head, head) << firing;
  }
}

TEST_P(KeepRehearsalTest, a_file_beside_that_differs_is_used_told_and_kept_apart) {
  (void)kept(at("firing.toml"));
  alter("tray-light.toml", "mass = \"", "mass = \"1");
  const KeptRehearsal again = kept(at("firing.toml"));
  EXPECT_EQ(again.kept.version, 1) << "the firing itself says the same";
  EXPECT_EQ(again.kept.rehearsal, 2);
  EXPECT_EQ(again.kept.differ,
            (std::vector<std::string>{"tray light beside the file is another than version 1 in the store; the one beside was used, and is "
                                      "kept with this rehearsal alone."}));
  records::Store store = opened_store();
  EXPECT_EQ(store.find("tray", "light")->version, 1);
  const RehearsalDocument document = read_rehearsal_document(store.find(rehearsal_kind, "firing")->body);
  const auto tray = std::find_if(document.used.begin(), document.used.end(), [](const auto& each) { return each.name.kind == "tray"; });
  ASSERT_NE(tray, document.used.end());
  EXPECT_EQ(tray->from, "beside: tray-light.toml");
  EXPECT_EQ(store.find(snapshot_kind, tray->name.snapshot)->body, read_whole(at("tray-light.toml")));
}

TEST_P(KeepRehearsalTest, what_was_started_is_not_planned_again_and_a_change_needs_a_reason) {
  (void)kept(at("firing.toml"));
  alter("firing.toml", "place = \"between\"", "place = \"edge\"");
  EXPECT_EQ(refusal([&] { (void)kept(at("firing.toml")); }),
            "Firing firing differs from version 1 in the store; nothing was kept. Say why, and it becomes version 2.");
  EXPECT_EQ(kept(at("firing.toml"), "moved outwards").kept.version, 2);
  records::Store store = opened_store();
  start(store, "firing");
  const std::string head = store.status().head;
  EXPECT_EQ(refusal([&] { (void)kept(at("firing.toml"), "again"); }),
            "Firing firing is \"started\" in the store and is not planned again; nothing was kept. Give the new firing a name of its own.");
  EXPECT_EQ(store.status().head, head);
}

TEST_P(KeepRehearsalTest, a_firing_that_was_started_is_found_as_it_was_to_the_last_bit) {
  for (const char* name : {"firing", "crystallise-firing"}) {
    const KeptRehearsal then = kept(at(std::string(name) + ".toml"));
    records::Store store = opened_store();
    start(store, name);
    const auto& request = then.rehearsed.rehearsal.request;
    change<trade::Tray>(store, request.tray.name, [](trade::Tray& tray) { tray.mass->value = quantity::grams(83); });
    change<trade::Furnace>(store, request.furnace.name,
                           [](trade::Furnace& furnace) { furnace.display_error->error.value = quantity::kelvins(31); });
    change<trade::Program>(store, request.program.name,
                           [](trade::Program& program) { program.drying_time.value = quantity::seconds(773); });
    const Rehearsed as_it_was = rehearse_in_lab(name, asked_);
    EXPECT_EQ(as_it_was.rehearsal.firing.end, then.rehearsed.rehearsal.firing.end) << name;
    EXPECT_EQ(as_it_was.rehearsal.inputs_hash, then.rehearsed.rehearsal.inputs_hash) << name;
    const auto states = read_rehearsal_document(store.find(rehearsal_kind, name)->body).states;
    ASSERT_EQ(states.size(), as_it_was.rehearsal.firing.end.size()) << name;
    for (std::size_t i = 0; i < states.size(); ++i) EXPECT_EQ(states[i].points, as_it_was.rehearsal.firing.end[i].points) << name;
    const Rehearsed planned = rehearse_in_lab(std::string(name) + "@1", asked_);
    EXPECT_NE(planned.rehearsal.firing.end, then.rehearsed.rehearsal.firing.end) << "a plan takes what stands now";
  }
}

TEST_P(KeepRehearsalTest, firings_of_the_past_stay_as_they_were_fired) {
  (void)kept(at("firing.toml"));
  records::Store store = opened_store();
  start(store, "firing");
  alter("correction-firing.toml", "instruction = \"correction", "after = [\"firing\"]\ninstruction = \"correction");
  alter("correction-firing.toml", "piece = \"crown-16-correction\"", "piece = \"crown-16-correction\"\nwas = \"crown-16\"");
  const KeptRehearsal then = kept(at("correction-firing.toml"));
  ASSERT_EQ(then.rehearsed.rehearsal.request.earlier.size(), 1U);
  change<trade::Furnace>(store, "corner", [](trade::Furnace& furnace) { furnace.display_error->error.value = quantity::kelvins(31); });
  for (const std::string& asked : {at("correction-firing.toml"), std::string("correction-firing")})
    EXPECT_EQ(rehearse_in_lab(asked, asked_).rehearsal.inputs_hash, then.rehearsed.rehearsal.inputs_hash)
        << "the furnace of the first firing was another then";
  start(store, "correction-firing");
  EXPECT_EQ(rehearse_in_lab("correction-firing", asked_).rehearsal.firing.end, then.rehearsed.rehearsal.firing.end);
  alter("firing.toml", "place = \"between\"", "place = \"edge\"");
  EXPECT_NE(rehearse_in_lab(at("correction-firing.toml"), asked_).rehearsal.inputs_hash, then.rehearsed.rehearsal.inputs_hash)
      << "the file beside says another firing";
}

TEST_P(KeepRehearsalTest, names_are_sought_beside_then_in_the_store_then_among_what_ships) {
  (void)kept(at("firing.toml"));
  const auto place_in = [](const Rehearsed& rehearsed, const std::string& what) {
    for (const auto& [name, place] : rehearsed.rehearsal.request.came_from)
      if (name == what) return place;
    return std::string("not found");
  };
  EXPECT_EQ(place_in(rehearse_in_lab(at("firing.toml"), asked_), "tray light"), "beside: tray-light.toml");
  std::filesystem::remove(at("tray-light.toml"));
  const Rehearsed now = rehearse_in_lab(at("firing.toml"), asked_);
  EXPECT_EQ(place_in(now, "tray light"), "store: tray light@1");
  EXPECT_EQ(place_in(now, "liquid water"), "shipped: liquids/water.toml");
  EXPECT_EQ(refusal([&] { (void)rehearse_in_lab("firing@7", asked_); }), "Firing firing has no version 7; its newest is 1.");
  EXPECT_NE(refusal([&] { (void)rehearse_in_lab("firinf", asked_); }).find("did you mean \"firing\"?"), std::string::npos);
  alter("firing.toml", "tray = \"light\"", "tray = \"lihgt\"");
  EXPECT_NE(refusal([&] {
              (void)rehearse_in_lab(at("firing.toml"), asked_);
            }).find("tray \"lihgt\" is found neither beside the file nor in the store nor among what ships"),
            std::string::npos);
}

class DamagedFileTest : public KeepRehearsalTest {};
INSTANTIATE_TEST_SUITE_P(Engines, DamagedFileTest, testing::Values(records::Engine::sqlite), records::for_tests::engine_name);

TEST_P(DamagedFileTest, is_not_passed_over) {
  (void)kept(at("firing.toml"));
  std::ofstream(address_.where, std::ios::binary | std::ios::in) << "no store at all";
  EXPECT_NE(refusal([&] { (void)rehearse_in_lab(at("firing.toml"), asked_); }), "accepted");
}

}  // namespace
}  // namespace heatwork::desk
