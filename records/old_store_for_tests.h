// A store of an earlier format, made by the steps up to it and filled with what a small lab keeps.
#pragma once

#include <fstream>
#include <memory>
#include <sstream>
#include <string>

#include "records/new_store.h"
#include "records/schema.h"
#include "records/store_for_tests.h"
#include "records/transaction.h"

namespace heatwork::records::for_tests {

/// Reads the index off files as a lab keeps them: one value a line, `key = "value"`. Enough for what stands in the kept stores.
inline Index plain_index(const Document& document) {
  Index index;
  index.words = document.id;
  std::string furnace, program, lot, at;
  std::vector<std::string> pieces;
  std::istringstream lines(document.body);
  for (std::string line; std::getline(lines, line);) {
    const auto equals = line.find(" = \"");
    const auto list = line.find(" = [\"");
    if (equals == std::string::npos && list == std::string::npos) continue;
    const std::string key = line.substr(0, std::min(equals, list));
    const auto from = line.find('"') + 1;
    const std::string value = line.substr(from, line.find('"', from) - from);
    if (key == "label") index.label = value;
    if (key == "state") index.state = value;
    if (key == "furnace") furnace = value;
    if (key == "program") program = value + "@1";
    if (key == "lots") lot = value;
    if (key == "piece" || key == "pieces") pieces.push_back(value);
    if (key == "expires") index.dues.push_back({value, "expires"});
  }
  if (document.kind == "firing" || document.kind == "bench step")
    for (const std::string& piece : pieces) index.uses.push_back({1'764'090'664'123, piece, furnace, program, lot});
  if (document.kind == "check") index.uses.push_back({1'764'060'000'000, "", furnace, "", ""});
  return index;
}

inline Opening plain_opening() {
  Opening asked = opening();
  asked.index_of = plain_index;
  return asked;
}

inline Store make_old(const Address& address, int format, const Opening& opening) {
  std::unique_ptr<Store::Inside> inside;
  std::unique_ptr<NewFile> file;
  if (address.engine == Engine::sqlite) {
    file = std::make_unique<NewFile>(address, opening);
    inside = file->take();
  } else {
    inside = std::make_unique<Store::Inside>();
    inside->address = address;
    inside->opening = opening;
  }
  begin_writing(*inside);
  make_tables(*inside, format);
  begin_trail(*inside, opening.who);
  commit(*inside);
  if (file) file->put_in_place();
  return Store::Inside::opened(std::move(inside));
}

inline std::string demo_file(const std::string& name) {
  std::ifstream file(std::string(HEATWORK_SOURCE_DIR) + "/data/demo/" + name + ".toml");
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// A furnace, a program and what is fired in it; a firing from plan to result, a bench step, a lot that expires, a person, a photo.
inline void fill_small_lab(Store& store) {
  const auto keep = [&](const std::string& kind, const std::string& id, int after, const std::string& body, const std::string& action,
                        const std::string& reason = "") {
    NewVersion made = version(kind, id, after, body);
    made.action = action;
    made.reason = reason;
    store.keep(change({made}));
  };
  keep("furnace", "corner", 0, demo_file("furnace-corner"), "added");
  keep("program", "dentine-on-zirconia", 0, demo_file("program-dentine-on-zirconia"), "added");
  keep("instruction", "dentine-on-zirconia-sheet", 0, demo_file("instruction-dentine-on-zirconia-sheet"), "added");
  keep("tray", "light", 0, demo_file("tray-light"), "added");
  keep("support", "pins", 0, demo_file("support-pins"), "added");
  keep("piece", "crown-16", 0, demo_file("piece-crown-16"), "added");
  keep("piece", "bridge-24-26", 0, demo_file("piece-bridge-24-26"), "added");
  keep("lot", "jar-31", 0,
       "format = 1\n\n[lot]\nname = \"jar-31\"\nlabel = \"dentine, second jar\"\nnote = \"Invented for the demo lab.\"\nmaterial = "
       "\"zirconia-veneer\"\ncode = \"Q 31-7\"\nopened = \"2026-11-02\"\nexpires = \"2027-08-31\"\n",
       "added");
  keep("bench step", "built-up-1", 0,
       "format = 1\n\n[bench_step]\nname = \"built-up-1\"\nlabel = \"crown and bridge built up\"\nwork = \"build-up\"\npieces = "
       "[\"crown-16\"]\nlots = "
       "[\"jar-31\"]\nat = \"2026-11-25T16:40:00Z\"\nperson = \"mk\"\n",
       "recorded");
  const std::string firing = demo_file("firing");
  keep("firing", "firing", 0, firing + "\n[firing.record]\nstate = \"planned\"\nplanned_for = \"2026-11-25T17:00:00Z\"\n", "planned");
  keep("firing", "firing", 1, firing + "\n[firing.record]\nstate = \"started\"\nstarted = \"2026-11-25T17:11:04Z\"\nstarted_by = \"mk\"\n",
       "started");
  keep("firing", "firing", 2,
       firing +
           "\n[firing.record]\nstate = \"ended\"\nstarted = \"2026-11-25T17:11:04Z\"\nstarted_by = \"mk\"\nended = "
           "\"2026-11-25T17:31:50Z\"\nended_by "
           "= \"mk\"\n",
       "ended", "came out as wanted");
  if (store.inside().found.format >= 2)
    keep("check", "corner-wire-1", 0,
         "format = 1\n\n[check]\nname = \"corner-wire-1\"\nlabel = \"silver wire in corner\"\nfurnace = \"corner\"\nof = \"temperature\"\n"
         "good = true\nerror = \"3 K\"\nmethod = \"invented\"\nat = \"2026-11-25T08:05:00Z\"\nperson = \"mk\"\n",
         "recorded");
  Change more = change({});
  more.personal = {{"mk", "name = \"Made Up\"\n", "joined the lab"}};
  more.photos = {{"\x89PNG invented", "of crown-16"}};
  store.keep(more);
}

}  // namespace heatwork::records::for_tests
