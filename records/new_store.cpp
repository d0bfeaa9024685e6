#include "records/new_store.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <soci/soci.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>

#include "records/connection.h"
#include "records/durable.h"
#include "records/hash.h"
#include "records/network_folder.h"
#include "records/schema.h"
#include "records/statement.h"
#include "records/transaction.h"
#include "records/values.h"

namespace heatwork::records {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const Address& address, int error) {
  const bool room = error == ENOSPC || error == EDQUOT || error == EFBIG;
  if (room) throw StoreError(StoreProblem::full, fmt::format("The store {} cannot be made: the disk is full.", address.shown()));
  throw StoreError(StoreProblem::refused,
                   fmt::format("The store {} cannot be made: the machine does not let its file or folder be made.", address.shown()));
}

[[noreturn]] void stands_already(const Address& address) {
  throw StoreError(StoreProblem::already_there,
                   fmt::format("Something stands at {} already; a store is made where nothing stands.", address.shown()));
}

void make_folders(const fs::path& folder, const Address& address) {
  if (folder.empty() || fs::exists(folder)) return;
  make_folders(folder.parent_path(), address);
  if (::mkdir(folder.c_str(), 0750) != 0 && errno != EEXIST) refuse(address, errno);
}

/// Syncing and naming speak of a file that only this makes; people know the store.
template <class Work>
void for_store(const Address& address, Work&& work) {
  try {
    work();
  } catch (const StoreError& error) {
    if (error.problem() == StoreProblem::already_there) stands_already(address);
    refuse(address, error.problem() == StoreProblem::full ? ENOSPC : EACCES);
  }
}

}  // namespace

NewFile::NewFile(const Address& address, const Opening& opening) : final_(file_of(address)) {
  if (const auto network = network_file_system(final_))
    throw StoreError(StoreProblem::network_folder,
                     fmt::format("The store {} would lie on a file system of a network ({}), where a file is not safe from two writers; "
                                 "take a disk of this machine, or PostgreSQL.",
                                 address.shown(), *network));
  const fs::path path(final_);
  make_folders(path.parent_path(), address);
  if (fs::symlink_status(path).type() != fs::file_type::not_found) stands_already(address);
  const std::string begins = fmt::format(".{}.making-", path.filename().string());
  sweep(path.parent_path(), begins);
  making_ = (path.parent_path() / (begins + random_hex(8))).string();
  const int file = ::open(making_.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0640);
  if (file < 0) refuse(address, errno);
  ::close(file);
  owned_ = std::make_unique<Store::Inside>();
  inside_ = owned_.get();
  inside_->address = address;
  inside_->opening = opening;
  inside_->opening.read_only = false;
  inside_->connection->file = making_;
  try {
    for (const char* setting : {"pragma journal_mode = off", "pragma synchronous = off", "pragma locking_mode = exclusive"})
      inside_->run(setting);
  } catch (...) {
    ::unlink(making_.c_str());
    throw;
  }
}

NewFile::~NewFile() {
  if (!placed_) ::unlink(making_.c_str());
}

void NewFile::put_in_place() {
  const Address& address = inside_->address;
  for (const char* setting : {"pragma locking_mode = normal", "pragma synchronous = full", "pragma journal_mode = wal"})
    inside_->run(setting);
  inside_->connection->session.reset();
  for_store(address, [&] {
    sync_file(making_);
    give_name(making_, final_);
  });
  placed_ = true;
  inside_->connection->file = final_;
}

void begin_trail(Store::Inside& inside, const Who& who) {
  check(who);
  const std::string store_id = random_hex(16);
  inside.set_about("format", std::to_string(inside.found.format));
  inside.set_about("store_id", store_id);
  inside.set_about("made_utc", who.at_utc);
  inside.append({0, who, "store made", "store", store_id, inside.found.format, "", "", "", "", ""});
}

Ground ground_of(Store::Inside& inside) {
  std::int64_t all = 0, ours = 0;
  const char* text = inside.sqlite()
                         ? "select count(*), coalesce(sum(case when name in ('about', 'documents', 'trail') then 1 else 0 end), 0) "
                           "from sqlite_master where type = 'table'"
                         : "select count(*), coalesce(sum(case when c.relname in ('about', 'documents', 'trail') and n.nspname "
                           "= current_schema() then 1 else 0 end), 0) from pg_class c join pg_namespace n on n.oid = "
                           "c.relnamespace where c.relkind in ('r', 'p', 'v', 'm', 'f') and n.nspname not in "
                           "('information_schema', 'pg_catalog') and n.nspname not like 'pg|_toast%' escape '|' and n.nspname "
                           "not like 'pg|_temp%' escape '|'";
  Statement(inside, text).into(all).into(ours).next();
  return all == 0 ? Ground::empty : ours == 3 ? Ground::store : Ground::other;
}

NewStore::NewStore(const Address& address, const Opening& opening) {
  std::unique_ptr<Store::Inside> owned;
  if (address.engine == Engine::sqlite) {
    file_ = std::make_unique<NewFile>(address, opening);
    owned = file_->take();
  } else {
    owned = std::make_unique<Store::Inside>();
    owned->address = address;
    owned->opening = opening;
    owned->opening.read_only = false;
  }
  inside_ = owned.get();
  store_ = std::make_unique<Store>(Store::Inside::opened(std::move(owned)));
  begin_writing(*inside_);
  if (!inside_->sqlite() && ground_of(*inside_) != Ground::empty) {
    roll_back(*inside_);
    stands_already(address);
  }
  make_tables(*inside_, store_format);
}

NewStore::~NewStore() {
  if (!placed_ && inside_->connection->depth > 0) roll_back(*inside_);
}

void NewStore::put_in_place() {
  commit(*inside_);
  if (file_) file_->put_in_place();
  placed_ = true;
}

}  // namespace heatwork::records
