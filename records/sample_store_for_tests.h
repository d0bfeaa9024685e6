// A store with something in every table: versions, firings with pieces, days due, photos and personal data kept, changed and erased.
#pragma once

#include <string>
#include <vector>

#include "records/store_for_tests.h"

namespace heatwork::records::for_tests {

inline NewVersion sample_firing(int number) {
  const std::string name = "firing-" + std::to_string(number);
  const std::string at = std::to_string(1'700'000'000'000 + number * 3'600'000LL);
  return version("firing", name, 0,
                 "label Firing " + std::to_string(number) + "\nstate ended\nat " + at + "\nuse " + at + " crown-" +
                     std::to_string(number % 7) + " corner dentine@1 lot-" + std::to_string(number % 3) + "\nuse " + at + " bridge-" +
                     std::to_string(number % 5) + " corner dentine@1 -\nnotes of the firing " + std::to_string(number) + "\n");
}

/// Keeps some ten entries, and one a firing more.
inline void fill_sample(Store& store, int firings = 6) {
  NewVersion furnace = version("furnace", "corner", 0, "label Corner\ndue 2026-12-01 check of the display\ndue 2027-01-15 new muffle\n");
  NewVersion typed = version("program", "dentine", 0, "label Dentine\n580 closing 4 min\n");
  typed.typed = "label   Dentine\n580 closing   4 min\n";
  store.keep(change({furnace, typed}));
  NewVersion hotter = version("program", "dentine", 1, "label Dentine\n585 closing 4 min\n");
  hotter.reason = "too pale, \"pale\" it was";
  store.keep(change({hotter}));
  store.keep(change({version("program", "dentine", 2, "label Dentine\n590 closing 4 min\n")}));
  Change persons = change({});
  persons.personal = {{"mk", "Maria K\u00f6nig\n", "asked for"}, {"tt", "Tom\n", ""}};
  persons.photos = {{"\x89PNG made up, one", "shade"}, {"\x89PNG made up, two", ""}};
  store.keep(persons);
  Change again = change({});
  again.personal = {{"mk", "Maria K\u00f6nig, bench 2\n", "moved"}, {"tt", "", "left the lab"}};
  again.erase_photos = {photo_hash("\x89PNG made up, two")};
  again.reason_to_erase = "shows a face";
  store.keep(again);
  std::vector<NewVersion> all;
  for (int number = 1; number <= firings; ++number) all.push_back(sample_firing(number));
  if (!all.empty()) store.keep(change(std::move(all)));
}

}  // namespace heatwork::records::for_tests
