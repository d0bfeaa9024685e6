// "Serve the page at the bench": listens, tells where, and answers until it is stopped.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "desk/lab/asked.h"

namespace heatwork::server {

struct ServeWords {
  desk::AskedLab lab;
  int port = 8110;
};

struct ServeHooks {
  std::function<void(const std::string&)> ready;  ///< one line that tells the address, once it answers
  std::function<void(const std::string&)> log;    ///< one line an answer
  std::function<bool()> stop;                     ///< asked several times a second
};

/// Errors: Failure where it cannot listen, or must not.
void serve(const ServeWords& words, const ServeHooks& hooks);

}  // namespace heatwork::server
