#include "desk/lab/firing_work.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "desk/demo.h"
#include "desk/errors.h"
#include "desk/files.h"
#include "desk/lab/bench_work.h"
#include "desk/lab/keep.h"
#include "desk/lab/keep_rehearsal.h"
#include "desk/lab/kept_firing.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/piece_history.h"
#include "desk/lab/store_shelf.h"
#include "desk/lab/take_in.h"
#include "records/store_for_tests.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

const std::vector<std::string> both_good = {"crown-16=as wanted", "bridge-24-26=as-wanted"};

class FiringWorkTest : public records::for_tests::OnEachEngine {
 protected:
  void SetUp() override {
    OnEachEngine::SetUp();
    if (IsSkipped()) return;
    write_demo(lab());
    asked_ = {address_.where, "mk"};
    (void)make_store(asked_);
    (void)take_in(asked_, lab(), "");
    (void)rehearse_and_keep(lab() + "/firing.toml", asked_, "");
  }

  [[nodiscard]] std::string lab() const { return (folder_ / "lab").string(); }
  [[nodiscard]] records::Store store() const { return opened(place_of(asked_), Reading::and_writing); }
  [[nodiscard]] trade::Firing firing(const std::string& name = "firing") const {
    records::Store open = store();
    return kept_firing(open, name).firing;
  }
  CareAnswer start(const std::string& name = "firing", const std::string& at = "") const { return start_firing(asked_, {name, "", at}); }
  [[nodiscard]] CareAnswer end(std::vector<std::string> outcomes, const std::string& at = "") const {
    EndWords words;
    words.firing = "firing";
    words.outcomes = std::move(outcomes);
    words.at = at;
    return end_firing(asked_, words);
  }

  AskedLab asked_;
};
HEATWORK_ON_EACH_ENGINE(FiringWorkTest);

template <class Call>
std::string refusal(Call&& call) {
  try {
    call();
  } catch (...) {
    return explain(std::current_exception()).sentence;
  }
  return "accepted";
}

TEST_P(FiringWorkTest, a_start_pins_all_that_a_number_hangs_on) {
  (void)start();
  const trade::Firing started = firing();
  EXPECT_EQ(state_of(started), trade::FiringState::started);
  EXPECT_EQ(started.record->started_by, "mk");
  records::Store open = store();
  const trade::ResolvedFiring found = as_started(open, started);
  EXPECT_EQ(found.used.size(), started.record->used.size());
  for (const trade::TextUsed& text : found.used)
    EXPECT_TRUE(std::any_of(started.record->used.begin(), started.record->used.end(), [&](const auto& used) {
      return used.kind == text.kind && used.name == text.name && used.version == text.version;
    })) << text.name;
}

TEST_P(FiringWorkTest, what_follows_what) {
  const auto interrupt = [&] { (void)interrupt_firing(asked_, "firing", "mains cut", ""); };
  const auto call_off = [&] { (void)call_off_firing(asked_, "firing", "frame does not fit"); };
  EXPECT_EQ(refusal([&] { (void)end(both_good); }),
            "Firing firing is \"planned\" and cannot be ended; \"heatwork case start\" starts it first.");
  EXPECT_EQ(refusal(interrupt), "Firing firing is \"planned\" and cannot be interrupted; only a started firing can.");
  (void)start();
  EXPECT_EQ(refusal(call_off),
            "Firing firing is \"started\" and cannot be called off; \"heatwork case interrupted\" says that it stopped.");
  interrupt();
  EXPECT_EQ(refusal(interrupt), "Firing firing is \"interrupted\" and cannot be interrupted; only a started firing can.");
  (void)end(both_good);
  EXPECT_EQ(firing().record->interruption, "mains cut");
  EXPECT_EQ(refusal([&] { (void)end(both_good); }), "Firing firing is \"ended\" and cannot be ended; it is over already.");
  EXPECT_EQ(refusal(call_off), "Firing firing is \"ended\" and cannot be called off; only a planned firing can.");
  EXPECT_EQ(refusal([&] { (void)start(); }).rfind("Firing firing is \"ended\", started ", 0), 0U);
}

TEST_P(FiringWorkTest, what_was_called_off_is_not_started) {
  (void)call_off_firing(asked_, "firing", "frame does not fit");
  EXPECT_EQ(refusal([&] { (void)start(); }),
            "Firing firing is \"called off\"; only a planned firing is started. Give a new firing a name of its own.");
}

TEST_P(FiringWorkTest, a_furnace_and_a_piece_are_in_one_firing_at_a_time) {
  (void)start("firing", "2026-01-05T09:00:00Z");
  const std::string since = shown_moment(place_of(asked_), "2026-01-05T09:00:00Z");
  EXPECT_EQ(refusal([&] { (void)start("window-firing"); }),
            "Piece crown-16 is in the furnace corner: firing firing was started " + since + " and is not ended.");
  EXPECT_EQ(refusal([&] { (void)start("crystallise-firing"); }),
            "Furnace corner is in use: firing firing was started " + since + " and is not ended.");
  EXPECT_EQ(refusal([&] {
              (void)record_step(asked_, {"ground", "grind", {"crown-16"}, {}, {}, "", ""});
            }),
            "Piece crown-16 is in the furnace corner: firing firing was started " + since + " and is not ended.");
  (void)end(both_good);
  EXPECT_EQ(refusal([&] { (void)start("crystallise-firing"); }), "accepted");
}

TEST_P(FiringWorkTest, an_end_needs_an_outcome_a_piece_and_times_in_order) {
  (void)start("firing", "2026-01-05T09:00:00Z");
  const std::string words = "one of as wanted, fire again, make again, not judged.";
  EXPECT_EQ(refusal([&] { (void)end({"crown-16=as wanted"}); }), "How did bridge-24-26 come out? Give its outcome, " + words);
  EXPECT_EQ(refusal([&] { (void)end({"crown-16=good", "bridge-24-26=as wanted"}); }), "crown-16=good: an outcome is " + words);
  EXPECT_EQ(refusal([&] { (void)end({"crown-61=as wanted"}); }),
            "An outcome names \"crown-61\", which was not on the tray; there were crown-16, bridge-24-26.");
  EXPECT_EQ(refusal([&] { (void)end({"crown-16"}); }), "An outcome \"crown-16\" is not NAME=VALUE; NAME is one of crown-16, bridge-24-26.");
  EXPECT_EQ(refusal([&] {
              (void)end({"crown-16=as wanted", "crown-16=as wanted"});
            }),
            "An outcome is given twice for crown-16; each piece has one.");
  const StorePlace place = place_of(asked_);
  EXPECT_EQ(refusal([&] { (void)end(both_good, "2026-01-05T08:59:00Z"); }),
            shown_moment(place, "2026-01-05T08:59:00Z") + " lies before the start, " + shown_moment(place, "2026-01-05T09:00:00Z") +
                "; allowed is from there on.");
  EXPECT_NE(refusal([&] { (void)end(both_good, "2999-01-05T08:59:00Z"); }).find("lies in the future"), std::string::npos);
  EXPECT_EQ(state_of(firing()), trade::FiringState::started) << "nothing of it was kept";
}

TEST_P(FiringWorkTest, what_was_started_is_never_taken_back) {
  (void)start("firing", "2026-01-05T09:00:00Z");
  (void)take_in(asked_, lab(), "the files again");
  EXPECT_EQ(state_of(firing()), trade::FiringState::started) << "a file that is silent of it takes nothing away";
  std::string text = read_whole(lab() + "/firing.toml");
  text.replace(text.find("place = \"between\""), 17, "place = \"edge\"");
  write_whole(lab() + "/firing.toml", text);
  EXPECT_EQ(refusal([&] { (void)take_in(asked_, lab(), "moved"); }),
            "Firing firing was started 2026-01-05T09:00:00Z by mk: what it was, when and with what it was fired is not changed any more. "
            "Nothing was kept; give another firing a name of its own.");
  EXPECT_EQ(state_of(firing()), trade::FiringState::started);
}

TEST_P(FiringWorkTest, a_change_between_rehearsal_and_start_is_told) {
  {
    records::Store open = store();
    const auto stands = open.find("tray", "light");
    auto tray = read_kept<trade::Tray>(trade::source_of("tray light", stands->body));
    tray.mass->value = quantity::grams(83);
    auto next = records::for_tests::version("tray", "light", stands->version, trade::write_noun(tray));
    (void)keep(place_of(asked_), open, records::for_tests::change({next}));
  }
  EXPECT_NE(start().text.find("tray light was version 1 when the firing was rehearsed and is version 2 now."), std::string::npos);
}

TEST_P(FiringWorkTest, a_step_keeps_the_changed_piece_with_it) {
  std::string text = read_whole(lab() + "/piece-crown-16.toml");
  StepWords words{"ground-1", "grind", {"crown-16"}, {"veneer-31-7"}, {lab() + "/piece-crown-16.toml"}, "", ""};
  EXPECT_EQ(refusal([&] { (void)record_step(asked_, words); }),
            lab() +
                "/piece-crown-16.toml says the same as piece crown-16, version 1; leave the file out where the step changes nothing "
                "that counts.");
  text.replace(text.find("1.9 mm"), 6, "1.7 mm");
  write_whole(lab() + "/piece-crown-16.toml", text);
  (void)record_step(asked_, words);
  records::Store open = store();
  EXPECT_EQ(open.find("piece", "crown-16")->version, 2);
  EXPECT_EQ(refusal([&] { (void)record_step(asked_, words); }), "Bench step ground-1 stands already; give this one a name of its own.");
  words = {"ground-2", "grind", {"crown-61"}, {}, {}, "", ""};
  EXPECT_EQ(refusal([&] { (void)record_step(asked_, words); }), "The store keeps no piece \"crown-61\"; did you mean \"crown-16\"?");
  words = {"ground-2", "grind", {"crown-16"}, {"jar"}, {}, "", ""};
  EXPECT_EQ(refusal([&] { (void)record_step(asked_, words); }), "The store keeps no lot \"jar\"; a lot is entered before it is used.");
  words = {"ground-2", "grnd", {"crown-16"}, {}, {}, "", ""};
  EXPECT_EQ(
      refusal([&] { (void)record_step(asked_, words); }),
      "The work is \"grnd\", but must be one of build-up, opaque, wash, liner, stain, glaze, grind, blast, clean, etch, cement, polish, "
      "other.");
}

TEST_P(FiringWorkTest, a_history_is_read_from_the_rehearsal_of_that_very_start) {
  (void)start();
  records::Store open = store();
  const StateAfter kept = state_after(open, firing(), "crown-16");
  ASSERT_TRUE(kept.reading);
  EXPECT_EQ(kept.rehearsal, 2) << "the first was of the plan";
  EXPECT_EQ(kept.how, "kept rehearsal 2");
  (void)end(both_good);
  EXPECT_EQ(state_after(open, firing(), "crown-16").rehearsal, 2) << "what became of it changes no number";
  trade::Firing other = firing();
  other.record->used.pop_back();
  EXPECT_EQ(state_after(open, other, "crown-16").rehearsal, 0) << "started with other texts";
  trade::Firing replayed = firing();
  replayed.name = "unknown";  // of which no rehearsal is kept
  const StateAfter again = state_after(open, replayed, "crown-16");
  ASSERT_TRUE(again.reading);
  EXPECT_EQ(again.how, "computed again, as no rehearsal of it is kept, from the texts it was fired with");
  ASSERT_EQ(again.reading->layers.size(), kept.reading->layers.size());
  EXPECT_NEAR(*again.reading->shift_K, *kept.reading->shift_K, 1e-6);
  EXPECT_NEAR(*again.reading->layers[0].porosity_percent, *kept.reading->layers[0].porosity_percent, 1e-6);
}

TEST_P(FiringWorkTest, photos_are_kept_once_and_come_back) {
  const std::string bytes = std::string("\xFF\xD8\xFF\xE0", 4) + "a picture";
  write_whole(lab() + "/a.jpg", bytes);
  write_whole(lab() + "/b.jpg", bytes);
  write_whole(lab() + "/c.txt", "words");
  (void)keep_photos(asked_, "firing", {lab() + "/a.jpg", lab() + "/b.jpg"}, "crown");
  const auto photos = firing().record->photos;
  ASSERT_EQ(photos.size(), 1U);
  EXPECT_EQ(store().status().photos, 1);
  (void)write_photo(asked_, photos[0].hash, lab() + "/out.jpg");
  EXPECT_EQ(read_whole(lab() + "/out.jpg"), bytes);
  EXPECT_EQ(refusal([&] { (void)write_photo(asked_, photos[0].hash, lab() + "/out.jpg"); }),
            lab() + "/out.jpg stands there already; nothing was written. Name another file.");
  EXPECT_EQ(refusal([&] { (void)keep_photos(asked_, "firing", {lab() + "/c.txt"}, ""); }),
            lab() + "/c.txt is no photo; one is JPEG, PNG, WebP, HEIC or TIFF.");
  write_whole(lab() + "/big.jpg", bytes + std::string(records::largest_photo, 'x'));
  EXPECT_EQ(refusal([&] { (void)keep_photos(asked_, "firing", {lab() + "/big.jpg"}, ""); }),
            lab() + "/big.jpg has 10.0 MB; a photo has at most 10 MB.");
}

}  // namespace
}  // namespace heatwork::desk
