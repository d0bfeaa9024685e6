// Altered bytes as one file of the demo lab: a firing that is resolved, or any other file that the demo firings find in place of their own.
// The answer is a whole firing with its canonical lines, or one located mistake.
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "trade/library.h"
#include "trade/mistake.h"
#include "trade/reader.h"
#include "trade/shipped.h"
#include "trade/writer.h"

namespace {

using namespace heatwork::trade;

heatwork::quantity::Pressure ambient(heatwork::quantity::Length altitude) {
  return heatwork::quantity::Pressure::si(101325 - 10 * altitude.si());
}

/// Texts in memory in place of a folder; every file is asked for its heading as a folder's are.
class MemoryShelf : public Shelf {
 public:
  void add(std::shared_ptr<const Source> source) {
    if (const auto heading = heading_of(source)) files_.emplace_back(*heading, std::move(source));
  }
  [[nodiscard]] std::vector<Found> find(Noun noun, std::string_view name) const override {
    std::vector<Found> found;
    for (const auto& [heading, source] : files_)
      if (heading.noun == noun && heading.name == name) found.push_back({source, "in memory"});
    return found;
  }
  [[nodiscard]] std::vector<std::string> names(Noun noun) const override {
    std::vector<std::string> all;
    for (const auto& [heading, source] : files_)
      if (heading.noun == noun) all.push_back(heading.name);
    return all;
  }
  [[nodiscard]] std::string_view in_words() const override { return "in memory"; }

 private:
  std::vector<std::pair<Heading, std::shared_ptr<const Source>>> files_;
};

/// The demo lab, whose headings are read once.
class DemoShelf : public Shelf {
 public:
  [[nodiscard]] std::vector<Found> find(Noun noun, std::string_view name) const override { return lab().find(noun, name); }
  [[nodiscard]] std::vector<std::string> names(Noun noun) const override { return lab().names(noun); }
  [[nodiscard]] std::string_view in_words() const override { return "in the demo lab"; }

 private:
  static const MemoryShelf& lab() {
    static const auto shelf = [] {
      auto filled = std::make_unique<MemoryShelf>();
      for (const auto& file : shipped_files())
        if (file.path.starts_with("demo/")) filled->add(source_of(file.path, file.text));
      return filled;
    }();
    return *shelf;
  }
};

Library lab_with(const std::shared_ptr<const Source>& altered) {
  Library library(ambient);
  auto first = std::make_unique<MemoryShelf>();
  first->add(altered);
  library.add(std::move(first));
  library.add(std::make_unique<DemoShelf>());
  library.add(shipped_shelf());
  return library;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  const auto altered = source_of("altered.toml", std::string_view(reinterpret_cast<const char*>(bytes), size));
  try {
    const auto heading = heading_of(altered);
    if (!heading) return 0;
    const auto firing = heading->noun == Noun::firing ? altered : source_of("firing.toml", shipped_text("demo/firing.toml"));
    const ResolvedFiring resolved = lab_with(altered).resolve(read_noun<Firing>(firing));
    if (resolved.pieces.size() != resolved.firing.pieces.size() || canonical_text(resolved).empty()) std::abort();
  } catch (const Mistake& mistake) {
    if (mistake.sentence().empty()) std::abort();
  }
  return 0;
}
