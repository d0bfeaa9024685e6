#include "records/backup.h"

#include <fmt/format.h>

#include <filesystem>
#include <optional>
#include <system_error>
#include <utility>

#include "records/chain_proof.h"
#include "records/copy.h"
#include "records/copy_name.h"
#include "records/durable.h"
#include "records/exchange.h"
#include "records/export_view.h"
#include "records/inside.h"
#include "records/network_folder.h"
#include "records/own_folder.h"
#include "records/rotation.h"

namespace heatwork::records {

namespace {

/// A copy and the text beside it under unfinished names; gone again unless they get their own.
class Unfinished {
 public:
  explicit Unfinished(std::string path) : path_(std::move(path)), part_(path_ + std::string(unfinished)), text_(path_ + ".txt") {
    std::error_code ignored;
    if (std::filesystem::exists(path_, ignored) || std::filesystem::exists(part_, ignored)) {
      throw StoreError(StoreProblem::already_there, fmt::format("{} stands already, or is being made at this moment.", path_));
    }
  }
  ~Unfinished() {
    if (named_) return;
    for (const char* also : {"", "-journal", "-wal", "-shm"}) take_away(part_ + also);
    take_away(text_ + std::string(unfinished));
  }
  Unfinished(const Unfinished&) = delete;
  Unfinished& operator=(const Unfinished&) = delete;

  [[nodiscard]] const std::string& part() const { return part_; }
  /// The copy first: one without its text is whole, a text without its copy would promise what is not there.
  void give_names(const std::string& text) {
    write_whole(text_ + std::string(unfinished), text);
    sync_file(part_);
    give_name(part_, path_);
    named_ = true;
    take_away(text_);  // of a copy that somebody took away
    give_name(text_ + std::string(unfinished), text_);
  }

 private:
  std::string path_, part_, text_;
  bool named_ = false;
};

/// What the store's own side knows of the moment of the copy: its export hash, where it could be asked in one view with the copy.
std::optional<std::string> write_copy(Store& store, const std::string& part, const BackUpAsked& asked) {
  Store::Inside& from = store.inside();
  if (from.sqlite()) {
    from.vacuum_into(part);
    return std::nullopt;
  }
  Opening opening;
  opening.index_of = asked.index_of;
  opening.who = from.opening.who;
  opening.make = true;
  // A store is not written row by row over a network: it is made on a disk of this machine and copied as one file.
  std::optional<OwnFolder> local;
  if (network_file_system(part)) local.emplace(std::filesystem::temp_directory_path());
  const std::string path = local ? local->file("copy.sqlite") : part;
  const ReadingView view(from);
  NewStore to({Engine::sqlite, path}, opening);
  Progress progress(asked.watch, asked.watch ? rows_to_copy(from) : 0);
  copy_rows(from, to.inside(), progress);
  to.put_in_place();
  if (local) copy_whole(path, part);
  return export_in_view(from, {}, asked.watch);
}

/// Opens the copy as a stranger would, proves it whole, and proves that it is this store's. Where the copy was made by the engine
/// itself while others kept on writing, its newest entry must stand in the store's own chain: the chain seals every entry before, and
/// every document, photo and person's data of the copy is proven against the chain.
void prove_copy(Store& store, const std::string& part, const std::optional<std::string>& export_of_store, const BackUpAsked& asked,
                BackUpMade& made) {
  Opening opening;
  opening.index_of = asked.index_of;
  opening.read_only = true;
  Store copy = Store::open({Engine::sqlite, part}, opening);
  prove_whole(copy, "The store, or the copy that was made of it,", asked.watch);
  made.export_hash = export_hash(copy, asked.watch);
  std::optional<Entry> newest;
  {
    const ReadingView view(copy.inside());
    newest = copy.inside().newest_entry();
  }
  const bool same_store = newest && copy.inside().found.store_id == store.inside().found.store_id;
  bool equal = same_store && (!export_of_store || *export_of_store == made.export_hash);
  if (equal) {
    const ReadingView view(store.inside());
    equal = stands_in_chain(store.inside(), newest->sequence, newest->hash);
  }
  if (!equal) throw StoreError(StoreProblem::damaged, "The copy that was made is not the same as the store; it was taken away again.");
  made.head = newest->hash;
}

std::string text_beside(const Store::Inside& inside, const std::string& name, const BackUpMade& made, const std::string& now_utc) {
  return fmt::format(
      "{0}\nA copy of a whole store of Heatwork, made while it was in use, then opened, proven and compared.\n\n"
      "made         {1}\nof the store {2}\nat           {3}\nhead hash    {4}\nexport hash  {5}\n\n"
      "To restore it where Heatwork is installed and no store stands at lab.sqlite yet:\n\n"
      "  heatwork store restore {0} --store lab.sqlite\n"
      "  heatwork store verify --store lab.sqlite --head {4}\n\n"
      "The first prints the export hash; it is the one above. The copy holds whatever personal data the store held: keep it as safe.\n",
      name, now_utc, inside.found.store_id, inside.address.shown(), made.head, made.export_hash);
}

/// Fills in the newest copy where it is young enough. A time that lies ahead is said and not trusted.
bool not_due(const BackUpAsked& asked, const std::string& store_id, std::int64_t now_s, BackUpMade& made) {
  for (const CopyFile& copy : copies_in(asked.folder, store_id)) {
    if (copy.at_s > now_s) {
      made.said.push_back(fmt::format("The copy {} is of a time that lies ahead: a clock was or is wrong.", copy.path));
      continue;
    }
    if (!asked.if_due_s || now_s - copy.at_s >= *asked.if_due_s || !holds_store(copy.path, store_id)) return false;
    made.path = copy.path;
    std::error_code ignored;
    made.bytes = static_cast<std::int64_t>(std::filesystem::file_size(copy.path, ignored));
    return true;
  }
  return false;
}

}  // namespace

BackUpMade back_up(Store& store, const BackUpAsked& asked) {
  Store::Inside& inside = store.inside();
  const std::string& store_id = inside.found.store_id;
  const std::int64_t now_s = seconds_of(asked.now_utc);
  std::error_code ignored;
  if (!std::filesystem::is_directory(asked.folder, ignored)) {
    throw StoreError(StoreProblem::refused,
                     fmt::format("There is no folder {} for copies. Make it, or plug in the disk that holds it.", asked.folder));
  }
  BackUpMade made;
  if (not_due(asked, store_id, now_s, made)) return made;
  for (std::string& sentence : sweep_unfinished(asked.folder, store_id, now_s)) made.said.push_back(std::move(sentence));

  const std::string name = copy_name(store_id, asked.now_utc);
  made.path = (std::filesystem::path(asked.folder) / name).string();
  Unfinished copy(made.path);
  prove_copy(store, copy.part(), write_copy(store, copy.part(), asked), asked, made);
  made.bytes = static_cast<std::int64_t>(std::filesystem::file_size(copy.part()));
  copy.give_names(text_beside(inside, name, made, asked.now_utc));
  made.made = true;
  Dropped dropped = drop_oldest(asked.folder, store_id, asked.keep, made.path);
  made.dropped = std::move(dropped.paths);
  for (std::string& sentence : dropped.said) made.said.push_back(std::move(sentence));
  return made;
}

}  // namespace heatwork::records
