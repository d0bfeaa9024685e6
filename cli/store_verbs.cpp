#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "cli/interrupt.h"
#include "cli/progress.h"
#include "cli/verbs.h"
#include "desk/lab/store_care.h"
#include "desk/lab/take_in.h"

namespace heatwork::cli {
namespace {

struct StoreRequest {
  desk::AskedLab lab;
  bool json = false;
};

/// Long work with its bar; Ctrl-C ends it at the next step, with nothing left half-done.
template <class Work>
desk::CareAnswer watched(const std::string& what, Work&& work) {
  const WatchForStop stop;
  Progress progress(what);
  return work([&](std::int64_t made, std::int64_t all) {
    progress.at(static_cast<std::size_t>(made), static_cast<std::size_t>(all));
    return !stop.asked();
  });
}

void add_create_and_status(Verb& store) {
  Verb create = store.verb("create", "Make a store where none stands",
                           "store create\n  heatwork store create --store postgresql://lab@server/heatwork");
  const auto made = std::make_shared<StoreRequest>();
  create.store(made->lab);
  create.json(made->json);
  create.does([made] { return show(desk::make_store(made->lab), made->json); });

  Verb status = store.verb("status", "Where the store is, what it holds, its head hash, its newest backup", "store status");
  const auto asked = std::make_shared<StoreRequest>();
  status.store(asked->lab);
  status.json(asked->json);
  status.does([asked] { return show(desk::status_of_store(asked->lab), asked->json); });
}

void add_verify(Verb& store) {
  struct Request : StoreRequest {
    std::string head;
  };
  Verb verify = store.verb("verify", "Prove that nothing kept was altered; ends with 1 where something was", "store verify");
  const auto request = std::make_shared<Request>();
  verify.option("--head", "HASH", request->head, "a head hash printed before; must still stand in the trail");
  verify.store(request->lab);
  verify.json(request->json);
  verify.does([request] {
    const auto work = [&](const desk::CareWatch& watch) { return desk::verify_store(request->lab, request->head, watch); };
    return show(watched("Verifying", work), request->json);
  });
}

void add_back_up(Verb& store) {
  struct Request : StoreRequest {
    desk::BackUpWords words;
    int keep = -1;
  };
  Verb back_up = store.verb("back-up", "Copy the whole store while it is in use, and prove the copy",
                            "store back-up /media/backups --keep 30\n  heatwork store back-up --if-due");
  const auto request = std::make_shared<Request>();
  back_up.value("FOLDER", request->words.folder, "where copies go, it must be there; else the setting", Need::optional);
  back_up.number("--keep", "N", request->keep, 0, 100'000, "newest copies that stay, 0: all; else the setting");
  back_up.flag("--if-due", request->words.if_due, "only where the newest copy is too old; for a timer");
  back_up.option("--every", "DURATION", request->words.every, "with --if-due: how old is too old, \"24 h\"; else the setting");
  back_up.store(request->lab);
  back_up.json(request->json);
  back_up.does(
      [request] {
        if (request->keep >= 0) request->words.keep = request->keep;
        const auto work = [&](const desk::CareWatch& watch) { return desk::back_up_store(request->lab, request->words, watch); };
        return show(watched("Backing up", work), request->json);
      },
      [request] { return !request->words.every.empty() && !request->words.if_due ? "--every goes with --if-due" : ""; });
}

void add_restore(Verb& store) {
  struct Request : StoreRequest {
    std::string backup;
  };
  Verb restore = store.verb("restore", "Put a backup where no store stands, and prove it", "store restore /media/backups");
  const auto request = std::make_shared<Request>();
  restore.value("BACKUP", request->backup, "the copy, or its folder: then the newest in it");
  restore.store(request->lab);
  restore.json(request->json);
  restore.does([request] {
    const auto work = [&](const desk::CareWatch& watch) { return desk::restore_store(request->lab, request->backup, watch); };
    return show(watched("Restoring", work), request->json);
  });
}

void add_move(Verb& store) {
  struct Request : StoreRequest {
    std::string to;
  };
  Verb move = store.verb("move", "Move everything to another place; the old one is closed for writing",
                         "store move postgresql://lab@server/heatwork");
  const auto request = std::make_shared<Request>();
  move.value("WHERE", request->to, "a file, or postgresql://..., where no store stands");
  move.store(request->lab);
  move.json(request->json);
  move.does([request] {
    const auto work = [&](const desk::CareWatch& watch) { return desk::move_store(request->lab, request->to, watch); };
    return show(watched("Moving", work), request->json);
  });
}

void add_export(Verb& store) {
  struct Request : StoreRequest {
    std::string file, folder;
  };
  Verb verb = store.verb("export", "Write the whole store as open JSON, or its tables for spreadsheets",
                         "store export lab.json\n  heatwork store export --csv tables");
  const auto request = std::make_shared<Request>();
  verb.value("FILE", request->file, "one that does not stand yet", Need::optional);
  verb.option("--csv", "FOLDER", request->folder, "tables instead: records, what they are found by, the trail");
  verb.store(request->lab);
  verb.json(request->json, "the answer as JSON");
  verb.does(
      [request] {
        const auto work = [&](const desk::CareWatch& watch) {
          return request->folder.empty() ? desk::export_store(request->lab, request->file, watch)
                                         : desk::export_tables(request->lab, request->folder, watch);
        };
        return show(watched("Exporting", work), request->json);
      },
      [request] { return request->file.empty() == request->folder.empty() ? "give a FILE for JSON, or --csv FOLDER for tables" : ""; });
}

void add_import(Verb& store) {
  struct Request : StoreRequest {
    std::string file;
  };
  Verb verb = store.verb("import", "Make a store of an export, where none stands", "store import lab.json --store restored.sqlite");
  const auto request = std::make_shared<Request>();
  verb.value("FILE", request->file, "what \"store export\" wrote");
  verb.store(request->lab);
  verb.json(request->json);
  verb.does([request] {
    const auto work = [&](const desk::CareWatch& watch) { return desk::import_store(request->lab, request->file, watch); };
    return show(watched("Taking in", work), request->json);
  });
}

void add_erase_photo(Verb& store) {
  struct Request : StoreRequest {
    std::string hash, reason;
  };
  Verb erase = store.verb("erase-photo", "Take a photo's bytes away; that it was kept stays in the trail",
                          "store erase-photo HASH --reason \"shows a face\"");
  const auto request = std::make_shared<Request>();
  erase.value("HASH", request->hash, "the photo's, as the firing names it");
  erase.reason(request->reason, Need::required);
  erase.store(request->lab);
  erase.json(request->json);
  erase.does([request] { return show(desk::erase_photo(request->lab, request->hash, request->reason), request->json); });
}

void add_files(Verb& store) {
  struct Request : StoreRequest {
    std::string folder, reason;
  };
  Verb take_in = store.verb("take-in", "Keep every file of a lab in a folder: programs, furnaces, pieces ...", "store take-in my-lab");
  const auto taken = std::make_shared<Request>();
  take_in.value("FOLDER", taken->folder, "the lab's files");
  take_in.reason(taken->reason);
  take_in.store(taken->lab);
  take_in.json(taken->json);
  take_in.does([taken] { return show(desk::take_in(taken->lab, taken->folder, taken->reason), taken->json); });

  Verb write_out = store.verb("write-out", "Write the newest version of every file of the lab", "store write-out my-lab-again");
  const auto written = std::make_shared<Request>();
  write_out.value("FOLDER", written->folder, "made where there is none");
  write_out.store(written->lab);
  write_out.json(written->json);
  write_out.does([written] { return show(desk::write_out(written->lab, written->folder), written->json); });
}

}  // namespace

void add_store(Verb& heatwork) {
  Verb store = heatwork.verb("store", "Where the lab's records are kept: make, prove, back up, restore", "store status");
  store.under(Heading::records);
  add_create_and_status(store);
  add_verify(store);
  add_back_up(store);
  add_restore(store);
  add_move(store);
  add_export(store);
  add_import(store);
  add_erase_photo(store);
  add_files(store);
  add_store_questions(store);
}

}  // namespace heatwork::cli
