// "Serve the page at the bench": listens, tells where, and answers until it is stopped.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"

namespace heatwork::server {

struct ServeWords {
  desk::AskedLab lab;
  std::vector<std::string> listen;  ///< addresses; empty: this machine alone
  std::vector<std::string> names;   ///< by which it is asked for besides those of the machine
  int port = 8110;
  std::string certificate, key;  ///< PEM files; empty: one of its own where it listens to other machines
  bool tls = false;              ///< for this machine alone too
};

struct ServeHooks {
  std::function<void(const std::string&)> ready;  ///< one line that tells the address, once it answers
  std::function<void(const std::string&)> note;   ///< lines for whoever started it
  std::function<void(const std::string&)> log;    ///< one line an answer, JSON, nothing personal in it
  std::function<bool()> stop;                     ///< asked several times a second
};

/// Errors: Failure where it cannot listen, or must not: other machines only with TLS and where somebody has a password.
void serve(const ServeWords& words, const ServeHooks& hooks);

/// All routes: method, path, name, and what whoever asks must be.
desk::CareAnswer routes_table();

}  // namespace heatwork::server
