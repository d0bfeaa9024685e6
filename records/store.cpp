#include "records/store.h"

#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <charconv>
#include <fstream>

#include "records/connection.h"
#include "records/inside.h"
#include "records/migrations.h"
#include "records/network_folder.h"
#include "records/new_store.h"
#include "records/statement.h"

namespace heatwork::records {

namespace {

[[noreturn]] void fail(StoreProblem problem, const Store::Inside& inside) {
  throw StoreError(problem, sentence_of(problem, {inside.address, inside.opening.busy_ms, false, false, false}));
}

/// Nothing of what stands there is touched before it is known to be a store.
void look_at_file(const Store::Inside& inside, const std::string& path) {
  struct stat found {};
  if (::stat(path.c_str(), &found) != 0) fail(errno == EACCES ? StoreProblem::refused : StoreProblem::no_store, inside);
  if (!S_ISREG(found.st_mode)) fail(StoreProblem::not_a_store, inside);
  std::ifstream file(path, std::ios::binary);
  if (!file) fail(StoreProblem::refused, inside);
  std::string head(16, '\0');
  file.read(head.data(), static_cast<std::streamsize>(head.size()));
  if (head != std::string_view("SQLite format 3\0", 16)) fail(StoreProblem::not_a_store, inside);
  // A copy that nobody writes is read without locks, wherever it lies.
  const bool without_locks = inside.opening.read_only && ::access((path + "-wal").c_str(), F_OK) != 0;
  if (const auto network = without_locks ? std::nullopt : network_file_system(path))
    throw StoreError(StoreProblem::network_folder,
                     fmt::format("The store {} lies on a file system of a network ({}), where a file is not safe from two writers; take a "
                                 "disk of this machine, or PostgreSQL.",
                                 inside.address.shown(), *network));
  if (!inside.opening.read_only && ::access(path.c_str(), W_OK) != 0)
    throw StoreError(StoreProblem::refused, fmt::format("The store {} may be read but not written by you.", inside.address.shown()));
}

bool stands(Store::Inside& inside) {
  if (inside.sqlite()) {
    struct stat found {};
    return ::lstat(file_of(inside.address).c_str(), &found) == 0 || errno != ENOENT;
  }
  const Ground ground = ground_of(inside);
  if (ground == Ground::other)
    throw StoreError(
        StoreProblem::not_a_store,
        fmt::format("The database {} holds something else than a store of Heatwork; a store takes an empty one.", inside.address.shown()));
  return ground == Ground::store;
}

void make(const Address& address, const Opening& opening) {
  try {
    NewStore fresh(address, opening);
    begin_trail(fresh.inside(), opening.who);
    fresh.put_in_place();
  } catch (const StoreError& error) {
    // Another program made it at the same moment: then that is the store.
    if (error.problem() != StoreProblem::already_there) throw;
  }
}

std::string needed(Store::Inside& inside, std::string_view key) {
  const auto text = inside.about(key);
  if (!text)
    throw StoreError(StoreProblem::damaged, fmt::format("The store {} is damaged: it does not say its {}.", inside.address.shown(),
                                                        key == "format"     ? "format"
                                                        : key == "store_id" ? "name"
                                                                            : "beginning"));
  return *text;
}

void read_about(Store::Inside& inside) {
  const std::string format = needed(inside, "format");
  const auto answer = std::from_chars(format.data(), format.data() + format.size(), inside.found.format);
  if (answer.ec != std::errc() || answer.ptr != format.data() + format.size() || inside.found.format < 1)
    fail(StoreProblem::damaged, inside);
  if (inside.found.format > store_format)
    throw StoreError(StoreProblem::too_new, fmt::format("The store {} is of format {}; this Heatwork knows formats up to {}. Take the "
                                                        "Heatwork that wrote it, or a later one.",
                                                        inside.address.shown(), inside.found.format, store_format));
  inside.found.store_id = needed(inside, "store_id");
  inside.found.made_utc = needed(inside, "made_utc");
}

void bring_to_format(Store::Inside& inside) {
  if (inside.found.format == store_format) return;
  if (inside.opening.read_only)
    throw StoreError(StoreProblem::too_old,
                     fmt::format("The store {} is of format {} and must be brought to format {} before it can be "
                                 "read; \"heatwork store back-up FOLDER\" brings it there, after a copy of it as it is.",
                                 inside.address.shown(), inside.found.format, store_format));
  migrate(inside);
}

}  // namespace

Store::Store(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Store Store::open(const Address& address, const Opening& opening) {
  auto inside = std::make_unique<Inside>();
  inside->address = address;
  inside->opening = opening;
  if (!stands(*inside)) {
    if (!opening.make || opening.read_only) fail(StoreProblem::no_store, *inside);
    make(address, opening);
  }
  if (inside->sqlite()) {
    look_at_file(*inside, file_of(address));
    if (ground_of(*inside) != Ground::store) fail(StoreProblem::not_a_store, *inside);
    // A copy that came from elsewhere may have lost its log's switch.
    if (!opening.read_only) inside->run("pragma journal_mode = wal");
  }
  read_about(*inside);
  bring_to_format(*inside);
  return Store(std::move(inside));
}

Status Store::status() {
  const ReadingView view(*inside_);
  Status status = inside_->found;
  status.address = inside_->address;
  status.moved_to = inside_->about("moved_to").value_or("");
  for (const KindCount& kind : kinds()) status.documents += kind.count;
  status.versions = inside_->count("documents");
  status.photos = inside_->count("photos");
  status.persons_with_data = inside_->count("personal");
  if (const auto newest = inside_->newest_entry()) {
    status.entries = newest->sequence;
    status.head = newest->hash;
  }
  const char* size = inside_->sqlite() ? "select page_count * page_size from pragma_page_count(), pragma_page_size()"
                                       : "select pg_database_size(current_database())";
  Statement(*inside_, size).into(status.bytes).next();
  return status;
}

}  // namespace heatwork::records
