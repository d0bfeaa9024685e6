#include "records/findings.h"

#include <iterator>
#include <nlohmann/json.hpp>

namespace heatwork::records {

namespace {

constexpr std::size_t longest_quote = 80;

/// Damaged names may hold anything; a sentence stays on its line and is UTF-8.
std::string readable(const std::string& text) {
  constexpr auto mend = nlohmann::json::error_handler_t::replace;
  const std::string escaped = nlohmann::json(text.substr(0, longest_quote)).dump(-1, ' ', false, mend);
  return escaped.substr(1, escaped.size() - 2) + (text.size() > longest_quote ? "..." : "");
}

}  // namespace

void Findings::wrong(std::int64_t sequence, std::string sentence) {
  if (sentences_.size() >= most_findings) {
    if (sequence >= sentences_.rbegin()->first) return;
    sentences_.erase(std::prev(sentences_.end()));
  }
  sentences_.emplace(sequence, std::move(sentence));
}

void Findings::take(const Findings& other) {
  for (const auto& [sequence, sentence] : other.sentences_) wrong(sequence, sentence);
}

std::vector<std::string> Findings::sentences() const {
  std::vector<std::string> all;
  for (const auto& [sequence, sentence] : sentences_) all.push_back(sentence);
  return all;
}

std::string named(const std::string& kind, const std::string& id, int version) {
  return named(kind, id) + ", version " + std::to_string(version);
}

std::string named(const std::string& kind, const std::string& id) {
  return readable(kind) + " " + readable(id);
}

std::string quoted(const std::string& text) {
  return "“" + readable(text) + "”";
}

}  // namespace heatwork::records
