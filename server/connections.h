// Connections: accepted up to a cap, each held by a worker, each with deadlines; requests read off them and answers put on them.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "server/front.h"

namespace heatwork::server {

struct Limits {
  std::size_t connections = 512;         ///< at a time, in all
  std::size_t a_guest = 64;              ///< of one address that is not this machine's own
  std::size_t header_bytes = 16 * 1024;  ///< first line and headers
  std::size_t json_bytes = 1 << 20, photo_bytes = 10 << 20;
  int first_byte_s = 10;  ///< for a new connection to ask something
  int idle_s = 15;        ///< between two requests
  int request_s = 10;     ///< for a whole request, and beside it
  int body_kB_a_s = 64;   ///< ... a second for so much of its body
  int answer_s = 30;      ///< for an answer to be taken
  int requests = 1000;    ///< on one connection
};

/// What is told of each answer.
struct Told {
  std::string method, route;
  int status = 0;
  double milliseconds = 0;
  std::size_t bytes = 0;
};

class Connections {
 public:
  /// Binds. Errors: Failure with one sentence: the port is taken, the address is none of this machine.
  /// Port 0: any that is free.
  Connections(const std::vector<std::string>& addresses, int port, const Limits& limits);
  Connections(const Connections&) = delete;
  Connections& operator=(const Connections&) = delete;
  ~Connections();

  [[nodiscard]] int port() const;

  /// Speaks TLS by these PEM files. Errors: Failure.
  void secure(const std::string& certificate, const std::string& key);
  /// Serves until `stop` says so; then every line is closed and all workers have ended.
  void serve(Front& front, const std::function<bool()>& stop, const std::function<void(const Told&)>& tell);

 private:
  struct Listening;
  std::unique_ptr<Listening> listening_;
  Limits limits_;
};

}  // namespace heatwork::server
