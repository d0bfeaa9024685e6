#include "tests/store/forgetting_disk.h"

#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <cstring>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace heatwork::store_proof {

namespace {

constexpr std::int64_t sector = 512;
ForgettingDisk* disk = nullptr;
sqlite3_vfs* machine = nullptr;

/// An open file of SQLite: ours, then the machine's own.
struct Open {
  sqlite3_file base;
  std::string* path;
  [[nodiscard]] sqlite3_file* own() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};

Open& open_of(sqlite3_file* file) {
  return *reinterpret_cast<Open*>(file);
}

int close_file(sqlite3_file* file) {
  Open& open = open_of(file);
  const int answer = open.own()->pMethods ? open.own()->pMethods->xClose(open.own()) : SQLITE_OK;
  delete open.path;
  return answer;
}

int read_file(sqlite3_file* file, void* bytes, int count, sqlite3_int64 at) {
  Open& open = open_of(file);
  return disk->dark() ? SQLITE_IOERR_READ : open.own()->pMethods->xRead(open.own(), bytes, count, at);
}

int write_file(sqlite3_file* file, const void* bytes, int count, sqlite3_int64 at) {
  Open& open = open_of(file);
  if (!disk->step()) return SQLITE_IOERR_WRITE;
  if (open.path) disk->wrote(*open.path, at, {static_cast<const char*>(bytes), static_cast<std::size_t>(count)});
  return open.own()->pMethods->xWrite(open.own(), bytes, count, at);
}

int truncate_file(sqlite3_file* file, sqlite3_int64 size) {
  Open& open = open_of(file);
  if (!disk->step()) return SQLITE_IOERR_TRUNCATE;
  if (open.path) disk->truncated(*open.path, size);
  return open.own()->pMethods->xTruncate(open.own(), size);
}

/// Power may go during a sync: then it has not happened.
int sync_file(sqlite3_file* file, int) {
  Open& open = open_of(file);
  if (!disk->step()) return SQLITE_IOERR_FSYNC;
  if (open.path) disk->synced(*open.path);
  return SQLITE_OK;
}

int size_of(sqlite3_file* file, sqlite3_int64* size) {
  Open& open = open_of(file);
  return open.own()->pMethods->xFileSize(open.own(), size);
}
int lock_file(sqlite3_file* file, int level) {
  Open& open = open_of(file);
  return open.own()->pMethods->xLock(open.own(), level);
}
int unlock_file(sqlite3_file* file, int level) {
  Open& open = open_of(file);
  return open.own()->pMethods->xUnlock(open.own(), level);
}
int reserved(sqlite3_file* file, int* answer) {
  Open& open = open_of(file);
  return open.own()->pMethods->xCheckReservedLock(open.own(), answer);
}
int control(sqlite3_file* file, int what, void* with) {
  Open& open = open_of(file);
  // What would set aside room past our eyes is left out; it changes nothing that is promised.
  if (what == SQLITE_FCNTL_SIZE_HINT || what == SQLITE_FCNTL_CHUNK_SIZE || what == SQLITE_FCNTL_MMAP_SIZE) return SQLITE_NOTFOUND;
  return open.own()->pMethods->xFileControl(open.own(), what, with);
}
int sector_size(sqlite3_file* file) {
  Open& open = open_of(file);
  return open.own()->pMethods->xSectorSize(open.own());
}
int characteristics(sqlite3_file* file) {
  Open& open = open_of(file);
  return open.own()->pMethods->xDeviceCharacteristics(open.own());
}
int map_shared(sqlite3_file* file, int region, int size, int extend, void volatile** memory) {
  Open& open = open_of(file);
  return open.own()->pMethods->xShmMap(open.own(), region, size, extend, memory);
}
int lock_shared(sqlite3_file* file, int offset, int count, int flags) {
  Open& open = open_of(file);
  return open.own()->pMethods->xShmLock(open.own(), offset, count, flags);
}
void barrier(sqlite3_file* file) {
  Open& open = open_of(file);
  open.own()->pMethods->xShmBarrier(open.own());
}
int unmap_shared(sqlite3_file* file, int remove) {
  Open& open = open_of(file);
  return open.own()->pMethods->xShmUnmap(open.own(), remove);
}

const sqlite3_io_methods methods = {2,           close_file,  read_file,    write_file, truncate_file, sync_file,       size_of,
                                    lock_file,   unlock_file, reserved,     control,    sector_size,   characteristics, map_shared,
                                    lock_shared, barrier,     unmap_shared, nullptr,    nullptr};

int open_file(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out) {
  Open& open = open_of(file);
  open.base.pMethods = nullptr;
  open.path = nullptr;
  if (disk->dark()) return SQLITE_CANTOPEN;
  const bool made = name && ::access(name, F_OK) != 0;
  const int answer = machine->xOpen(machine, name, open.own(), flags, out);
  if (answer != SQLITE_OK) return answer;
  open.base.pMethods = &methods;
  if (name && (flags & (SQLITE_OPEN_MAIN_DB | SQLITE_OPEN_MAIN_JOURNAL | SQLITE_OPEN_WAL))) {
    open.path = new std::string(name);
    disk->opened(*open.path, made);
  }
  return SQLITE_OK;
}

int delete_file(sqlite3_vfs*, const char* name, int for_sure) {
  if (!disk->step()) return SQLITE_IOERR_DELETE;
  disk->deleted(name, for_sure != 0);
  return machine->xDelete(machine, name, 0);
}

sqlite3_vfs ours;

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

void put(std::string& image, std::int64_t at, std::string_view bytes) {
  const auto from = static_cast<std::size_t>(at);
  if (image.size() < from + bytes.size()) image.resize(from + bytes.size(), '\0');
  std::memcpy(image.data() + from, bytes.data(), bytes.size());
}

}  // namespace

ForgettingDisk::ForgettingDisk() {
  if (disk) throw std::logic_error("One disk at a time.");
  sqlite3_initialize();
  disk = this;
  machine = sqlite3_vfs_find(nullptr);
  ours = *machine;
  ours.zName = "forgetting";
  ours.szOsFile = static_cast<int>(sizeof(Open)) + machine->szOsFile;
  ours.xOpen = open_file;
  ours.xDelete = delete_file;
  sqlite3_vfs_register(&ours, 1);
}

ForgettingDisk::~ForgettingDisk() {
  sqlite3_vfs_unregister(&ours);
  sqlite3_vfs_register(machine, 1);
  disk = nullptr;
}

void ForgettingDisk::watch(std::int64_t until) {
  files_.clear();
  until_ = until;
  watching_ = true;
  dark_ = false;
}

void ForgettingDisk::cut() {
  if (watching_) dark_ = true;
}

bool ForgettingDisk::step() {
  if (!watching_) return true;
  if (!dark_ && until_-- == 0) dark_ = true;
  return !dark_;
}

void ForgettingDisk::opened(const std::string& path, bool made) {
  if (!watching_) return;
  const auto known = files_.find(path);
  if (known == files_.end()) {
    File file;
    file.name_synced = !made;
    if (!made) file.synced = bytes_of(path);
    files_[path] = std::move(file);
  } else if (made) {
    // A file of this name was deleted, perhaps not for good.
    File file;
    if (known->second.gone) file.before = known->second.name_synced ? std::optional(known->second.synced) : known->second.before;
    known->second = std::move(file);
  }
}

void ForgettingDisk::wrote(const std::string& path, std::int64_t at, std::string_view bytes) {
  if (watching_) files_[path].steps.push_back({at, std::string(bytes), false});
}

void ForgettingDisk::truncated(const std::string& path, std::int64_t size) {
  if (watching_) files_[path].steps.push_back({size, "", true});
}

void ForgettingDisk::synced(const std::string& path) {
  if (!watching_) return;
  File& file = files_[path];
  for (const File::Step& step : file.steps)
    step.truncation ? file.synced.resize(static_cast<std::size_t>(step.at), '\0') : put(file.synced, step.at, step.bytes);
  file.steps.clear();
  // The machine's layer syncs the folder with the first sync of a file it made.
  file.name_synced = true;
  file.before.reset();
}

void ForgettingDisk::deleted(const std::string& path, bool for_sure) {
  if (!watching_) return;
  const auto known = files_.find(path);
  if (known == files_.end()) return;
  if (for_sure)
    files_.erase(known);
  else
    known->second.gone = true;
}

ForgettingDisk::Left ForgettingDisk::leave(const std::filesystem::path& folder, double chance, std::mt19937_64& random) {
  std::uniform_real_distribution<double> even(0, 1);
  const auto stays = [&] { return even(random) < chance; };
  Left left;
  for (const auto& [path, file] : files_) {
    std::string image = file.synced;
    bool there = file.name_synced;
    for (const File::Step& step : file.steps) {
      if (step.truncation) {
        if (stays()) image.resize(static_cast<std::size_t>(step.at), '\0');
        continue;
      }
      for (std::int64_t at = step.at, end = at + static_cast<std::int64_t>(step.bytes.size()); at < end;) {
        const std::int64_t next = std::min(end, (at / sector + 1) * sector);
        ++left.sectors;
        if (stays())
          put(image, at, std::string_view(step.bytes).substr(static_cast<std::size_t>(at - step.at), static_cast<std::size_t>(next - at)));
        else
          ++left.forgotten;
        at = next;
      }
    }
    if (!there) there = stays();
    if (file.gone && stays()) there = false;
    if (!there && file.before && !file.gone) image = *file.before, there = !stays();
    const std::filesystem::path target = folder / std::filesystem::path(path).filename();
    if (there) std::ofstream(target, std::ios::binary | std::ios::trunc) << image;
  }
  files_.clear();
  watching_ = dark_ = false;
  return left;
}

}  // namespace heatwork::store_proof
