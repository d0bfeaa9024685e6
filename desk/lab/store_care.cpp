#include "desk/lab/store_care.h"

#include <fmt/format.h>

#include <filesystem>
#include <utility>

#include "desk/errors.h"
#include "desk/lab/keep.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_place.h"
#include "records/backup.h"
#include "records/verify.h"

namespace heatwork::desk {
namespace {

constexpr std::string_view on_paper =
    "Write the head hash on paper, with the date: \"heatwork store verify --head HASH\" then shows whether the trail up to there was ever "
    "cut "
    "or rewritten.";

}  // namespace

CareAnswer make_store(const AskedLab& asked) {
  StorePlace place = place_of(asked);
  place.nobody_named_it = false;  // here it is asked for, and the answer is about its making
  return caring(place, [&] {
    // Opening with leave to make would open one that stands, too.
    records::Opening look = place.opening;
    look.read_only = true;
    look.make = false;
    try {
      (void)records::Store::open(place.address, look);
    } catch (const records::StoreError& error) {
      if (error.problem() != records::StoreProblem::no_store && error.problem() != records::StoreProblem::not_a_store) throw;
      records::Opening making = place.opening;
      making.make = true;
      records::Store store = records::Store::open(place.address, making);
      const records::Status status = store.status();
      const std::string shown = status.address.shown();
      return CareAnswer{care_line("Made", fmt::format("a store at {}, format {}", shown, status.format)) +
                            care_line("Head hash", status.head) +
                            care_line("Roles", "not in force: until a person is entered everybody may do everything"),
                        JsonObject{{"format", 1},
                                   {"store", shown},
                                   {"engine", records::word(status.address.engine)},
                                   {"store_format", status.format},
                                   {"store_id", status.store_id},
                                   {"made_utc", status.made_utc},
                                   {"head", status.head}},
                        false};
    }
    throw records::StoreError(
        records::StoreProblem::already_there,
        fmt::format("A store stands at {} already; nothing was changed. \"heatwork store status\" tells of it.", place.address.shown()));
  });
}

CareAnswer ready_store(const AskedLab& asked) {
  const StorePlace place = place_of(asked);
  try {
    records::Store store = opened(place, Reading::and_writing);
    const records::Status status = store.status();
    if (!status.migrated) return {};
    return {care_line("Brought", fmt::format("the store {} to format {}; as it was it lies at {}", status.address.shown(), status.format,
                                             status.copy_before_migration)),
            JsonObject{{"format", 1}, {"store_format", status.format}, {"copy", status.copy_before_migration}}, false};
  } catch (const records::StoreError& error) {
    if (error.problem() != records::StoreProblem::no_store) rethrow_with_advice(place, error);
  }
  return make_store(asked);
}

CareAnswer verify_store(const AskedLab& asked, const std::string& head, const CareWatch& watch) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    records::VerifyAsked wanted;
    wanted.head = head;
    wanted.watch = watch_of(watch);
    const records::Verified found = records::verify(store, wanted);
    if (found.stopped)
      throw Failure(ErrorWord::stopped, "Stopped before everything was read; what was read so far says nothing of the rest.");
    CareAnswer answer;
    answer.wrong = !found.wrong.empty();
    answer.text = care_line("Store", place.address.shown());
    answer.text += care_line("Read", fmt::format("{}, {}, {}, personal data of {}", counted(found.documents, "version", "versions"),
                                                 counted(found.entries, "trail entry", "trail entries"),
                                                 counted(found.photos, "photo", "photos"), counted(found.persons, "person", "persons")));
    JsonList wrong;
    for (const std::string& sentence : found.wrong) {
      answer.text += care_line(wrong.empty() ? "Wrong" : "", sentence);
      wrong.emplace_back(sentence);
    }
    if (answer.wrong) {
      answer.text += care_line("What to do",
                               "Leave the store as it is, copy it aside for whoever looks into it, and restore the newest good "
                               "backup: \"heatwork store verify --store BACKUP\" tells whether one is good.");
      for (const CopySeen& copy : copies_seen(place.backups)) answer.text += care_line("", copy.path);
    } else {
      answer.text += care_line(
          "Found", head.empty() ? "nothing was altered" : "nothing was altered, and the trail still carries the head hash you gave");
    }
    answer.text += care_line("Head hash", found.head);
    answer.json = JsonObject{{"format", 1},
                             {"store", place.address.shown()},
                             {"altered", answer.wrong},
                             {"wrong", wrong},
                             {"versions", static_cast<double>(found.documents)},
                             {"entries", static_cast<double>(found.entries)},
                             {"photos", static_cast<double>(found.photos)},
                             {"persons_with_data", static_cast<double>(found.persons)},
                             {"head", found.head},
                             {"head_sought", head}};
    return answer;
  });
}

CareAnswer move_store(const AskedLab& asked, const std::string& to, const CareWatch& watch) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    const StorePlace target = at_address(place, to);
    records::Store store = opened_to_set_up(place);
    const records::Copied copied = caring(target, [&] { return records::move(store, target.address, target.opening, watch_of(watch)); });
    const std::string from_shown = place.address.shown(), to_shown = target.address.shown();
    return CareAnswer{care_line("Moved", fmt::format("{} to {}", from_shown, to_shown)) +
                          care_line("Holds", fmt::format("{}, {}; compared, every one", counted(copied.documents, "version", "versions"),
                                                         counted(copied.entries, "trail entry", "trail entries"))) +
                          care_line("Export hash", copied.export_hash) + care_line("Head hash", copied.head) +
                          care_line("Now", fmt::format("{} is closed for writing. Name the new place: \"--store\", HEATWORK_STORE or the "
                                                       "setting \"store\".",
                                                       from_shown)),
                      JsonObject{{"format", 1},
                                 {"from", from_shown},
                                 {"to", to_shown},
                                 {"versions", static_cast<double>(copied.documents)},
                                 {"entries", static_cast<double>(copied.entries)},
                                 {"export_hash", copied.export_hash},
                                 {"head", copied.head}},
                      false};
  });
}

CareAnswer erase_photo(const AskedLab& asked, const std::string& hash, const std::string& reason) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    if (!store.photo(hash)) throw Failure(ErrorWord::unknown_name, fmt::format("No photo with the hash {} is kept.", hash.substr(0, 80)));
    records::Change change;
    change.erase_photos = {hash};
    change.reason_to_erase = reason;
    const records::Kept kept = keep(place, store, std::move(change));
    return CareAnswer{care_line("Erased", fmt::format("photo {}", hash)) +
                          care_line("Stays", fmt::format("that it was kept and why it went: trail entry {}", kept.sequence)) +
                          care_line("Beware", "Backups and exports made before still hold it.") + care_line("Head hash", kept.head),
                      JsonObject{{"format", 1}, {"photo", hash}, {"entry", static_cast<double>(kept.sequence)}, {"head", kept.head}},
                      false};
  });
}

}  // namespace heatwork::desk
