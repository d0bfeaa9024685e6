// Where a store is: a file of SQLite, or a database of PostgreSQL.
#pragma once

#include <string>
#include <string_view>

namespace heatwork::records {

enum class Engine { sqlite, postgresql };
std::string_view word(Engine engine);

struct Address {
  Engine engine = Engine::sqlite;
  std::string where;  ///< path of the file, or the whole postgresql:// URL with whatever it carries

  /// As it may be shown: without password.
  [[nodiscard]] std::string shown() const;
};

/// "lab.sqlite", "/var/lib/heatwork/lab.sqlite", "sqlite:lab.sqlite" or "postgresql://user@host:port/database".
/// Errors: StoreError bad_address.
Address read_address(std::string_view text);

}  // namespace heatwork::records
