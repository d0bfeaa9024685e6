#include <fmt/format.h>

#include <optional>

#include "records/backup.h"
#include "records/copy.h"
#include "records/durable.h"
#include "records/inside.h"

namespace heatwork::records {

namespace {

/// Takes a store away that was just put in place and that nobody uses yet.
void take_away_store(const Address& address, const Opening& opening) {
  if (address.engine == Engine::sqlite) {
    for (const char* also : {"", "-journal", "-wal", "-shm"}) take_away(address.where + also);
    return;
  }
  Store::Inside inside;
  inside.address = address;
  inside.opening = opening;
  for (const char* table : {"photos", "personal", "trail", "dues", "uses", "heads", "documents", "about"}) {
    inside.run(fmt::format("drop table {}", table));
  }
}

/// Whether the old store says that it was moved; nothing where it cannot be asked.
std::optional<bool> says_it_moved(const Address& address) {
  try {
    Store::Inside inside;
    inside.address = address;
    inside.opening.read_only = true;
    return inside.about("moved_to").has_value();
  } catch (const StoreError&) {
    return std::nullopt;
  }
}

void write_moved(Store::Inside& from, const Address& to, const Opening& opening) {
  Entry entry;
  entry.who = opening.who;
  entry.action = "moved";
  entry.kind = "store";
  entry.id = from.found.store_id;
  entry.version = from.found.format;
  entry.reason = "to " + to.shown();
  from.append(entry);
  from.set_about("moved_to", to.shown());
}

}  // namespace

Copied move(Store& from, const Address& to, const Opening& opening, const Watch& watch) {
  Store::Inside& inside = from.inside();
  Copied copied;
  {
    // Whoever writes waits until the old store is closed, and is told so then; nothing is kept in it that the new one does not have.
    WriteTransaction closing(inside);
    NewStore made(to, opening);
    copied = copy_and_prove(inside, made, watch);
    write_moved(inside, to, opening);
    made.put_in_place();
    try {
      closing.commit();
    } catch (const StoreError& error) {
      const std::optional<bool> moved = says_it_moved(inside.address);
      if (!moved) {
        throw StoreError(error.problem(),
                         fmt::format("{} The whole store stands at {} too; whether the old one is closed is not known. Use one "
                                     "of them only: \"store status\" of the old one tells.",
                                     error.what(), to.shown()));
      }
      if (!*moved) {
        take_away_store(to, opening);
        throw;
      }
    }
  }
  return copied;
}

}  // namespace heatwork::records
