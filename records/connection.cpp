#include "records/connection.h"

#include <dlfcn.h>
#include <fmt/format.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <mutex>
#include <set>

namespace heatwork::records {

namespace {

/// SOCI itself looks for its engines in the working folder first; the machine's own libraries are meant. Once each: one that is in
/// use cannot be named anew.
void load_engine(Engine engine) {
  static std::mutex alone;
  static std::set<Engine> loaded;
  const std::lock_guard guard(alone);
  if (loaded.count(engine) > 0) return;
  const std::string name = engine == Engine::sqlite ? "sqlite3" : "postgresql";
  soci::dynamic_backends::register_backend(name, "libsoci_" + name + ".so.4.0");
  loaded.insert(engine);
}

std::string percent_encoded(const std::string& path) {
  std::string out;
  for (const unsigned char letter : path) {
    if (std::isalnum(letter) || letter == '/' || letter == '-' || letter == '_' || letter == '.')
      out += static_cast<char>(letter);
    else
      out += fmt::format("%{:02X}", letter);
  }
  return out;
}

bool stands(const std::string& path, bool with_bytes = false) {
  struct stat found {};
  return ::stat(path.c_str(), &found) == 0 && (!with_bytes || found.st_size > 0);
}

/// Without this an error tells that writing failed, but not why. SQLite's library came with its engine.
void ask_for_full_codes(soci::session& session) {
  void* library = ::dlopen("libsqlite3.so.0", RTLD_LAZY | RTLD_NOLOAD);
  if (!library) return;
  using Switch = int (*)(sqlite_api::sqlite3*, int);
  const auto full_codes = reinterpret_cast<Switch>(::dlsym(library, "sqlite3_extended_result_codes"));
  if (full_codes) full_codes(static_cast<soci::sqlite3_session_backend*>(session.get_backend())->conn_, 1);
  ::dlclose(library);
}

void connect_sqlite(Store::Inside& inside) {
  Store::Inside::Connection& connection = *inside.connection;
  if (connection.file.empty()) connection.file = file_of(inside.address);
  const std::string& path = connection.file;
  // Reading needs the files of the log beside it. Where there is no log nobody writes, and none is made: the file is read without
  // locks, and whether it stayed as it was is asked after each answer.
  const bool read_only = inside.opening.read_only;
  const bool without_locks = read_only && !stands(path + "-wal", true);
  connection.unlocked = without_locks ? state_of_file(path) : "";
  const char* how = without_locks ? "mode=ro&immutable=1" : read_only ? "mode=ro" : "mode=rw";
  connection.session.reset();
  connection.session = std::make_unique<soci::session>(
      "sqlite3", fmt::format("db=file:{}?{}{}", percent_encoded(path), how, read_only ? " readonly=1" : ""));
  ask_for_full_codes(*connection.session);
  *connection.session << fmt::format("pragma busy_timeout = {}", std::max(inside.opening.busy_ms, 0));
  for (const char* setting :
       {"pragma synchronous = full", "pragma foreign_keys = off", "pragma secure_delete = on", "pragma trusted_schema = off",
        "pragma cell_size_check = on", "pragma temp_store = memory", "pragma cache_size = -32000", "pragma wal_autocheckpoint = 4000"})
    *connection.session << setting;
}

/// Settings that a caller's own URL leaves open.
std::string with_settings(std::string url) {
  for (const std::string_view setting : {"connect_timeout=10", "application_name=heatwork", "client_encoding=UTF8", "keepalives_idle=10",
                                         "keepalives_interval=5", "keepalives_count=3", "tcp_user_timeout=20000"}) {
    const std::string key(setting.substr(0, setting.find('=') + 1));
    if (url.find('?' + key) != std::string::npos || url.find('&' + key) != std::string::npos) continue;
    url += url.find('?') == std::string::npos ? '?' : '&';
    url += setting;
  }
  return url;
}

void connect_postgresql(Store::Inside& inside) {
  Store::Inside::Connection& connection = *inside.connection;
  connection.session.reset();
  connection.session = std::make_unique<soci::session>("postgresql", with_settings(inside.address.where));
  // A statement of ours that takes minutes is one that hangs; a big store's migration has the time it needs.
  *connection.session << fmt::format(
      "set client_min_messages = error; set standard_conforming_strings = on; set synchronous_commit = on; set bytea_output = hex; "
      "set lock_timeout = {}; set statement_timeout = {}; set idle_in_transaction_session_timeout = 0; set jit = off; "
      "set default_transaction_read_only = {}",
      std::max(inside.opening.busy_ms, 1), std::max(inside.opening.busy_ms, 1) + 3'600'000, inside.opening.read_only ? "on" : "off");
}

}  // namespace

std::string file_of(const Address& address) {
  return std::filesystem::absolute(address.where).lexically_normal().string();
}

std::string state_of_file(const std::string& path) {
  struct stat found {};
  if (::stat(path.c_str(), &found) != 0) return "gone";
  return fmt::format("{} {} {}.{} {}", found.st_ino, found.st_size, found.st_mtim.tv_sec, found.st_mtim.tv_nsec,
                     stands(path + "-wal", true));
}

Doing doing(const Store::Inside& inside) {
  const Store::Inside::Connection& connection = *inside.connection;
  return {inside.address, inside.opening.busy_ms, connection.writing, connection.committing, connection.session == nullptr};
}

void connect(Store::Inside& inside) {
  speaking(inside, [&] {
    load_engine(inside.address.engine);
    inside.sqlite() ? connect_sqlite(inside) : connect_postgresql(inside);
  });
  inside.connection->broken = false;
}

Store::Inside::Inside() : connection(std::make_unique<Connection>()) {}
Store::Inside::~Inside() = default;

soci::session& Store::Inside::sql() {
  const auto written_meanwhile = [&] { return !connection->unlocked.empty() && state_of_file(connection->file) != connection->unlocked; };
  if (!connection->session || (connection->depth == 0 && (connection->broken || written_meanwhile()))) connect(*this);
  return *connection->session;
}

void Store::Inside::run(const std::string& statement) {
  soci::session& session = sql();
  speaking(*this, [&] { session << statement; });
}

}  // namespace heatwork::records
