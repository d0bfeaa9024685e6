// The certificate of the server: one the lab has, or one that Heatwork makes for this machine's names and addresses.
#pragma once

#include <string>
#include <vector>

namespace heatwork::server {

struct Certificate {
  std::string file, key_file;  ///< PEM
  std::string fingerprint;     ///< SHA-256, "AB:CD:..."
  std::string until;           ///< day it runs out, "2027-12-24"
  bool made_now = false;
};

/// The lab's own. Errors: Failure where a file cannot be read, the two do not belong together, or it has run out.
Certificate given_certificate(const std::string& file, const std::string& key_file);

/// One that is kept in `folder`, made anew where none stands, it names other names or addresses, or it runs out within 30 days. The key is
/// readable by its owner alone. Errors: Failure.
Certificate own_certificate(const std::string& folder, const std::vector<std::string>& names);

/// What this machine is called and where it is reached: "localhost", its name, the addresses of its interfaces.
std::vector<std::string> names_of_machine();

}  // namespace heatwork::server
