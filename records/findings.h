// What a proof found wrong: the sentences of lowest sequence, a bounded number of them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "records/document.h"

namespace heatwork::records {

inline constexpr std::size_t most_findings = 20;
/// Of what has no entry of its own: the file as a whole comes first, what no entry tells of comes last.
inline constexpr std::int64_t of_the_file = -1;
inline constexpr std::int64_t without_entry = INT64_MAX;

class Findings {
 public:
  void wrong(std::int64_t sequence, std::string sentence);
  /// Adds those of another.
  void take(const Findings& other);
  [[nodiscard]] bool none() const { return sentences_.empty(); }
  [[nodiscard]] std::vector<std::string> sentences() const;

 private:
  std::multimap<std::int64_t, std::string> sentences_;
};

/// "program dentine, version 3"
std::string named(const std::string& kind, const std::string& id, int version);
/// "program dentine"
std::string named(const std::string& kind, const std::string& id);
/// A text as it may stand in a sentence: short, and on one line.
std::string quoted(const std::string& text);

}  // namespace heatwork::records
