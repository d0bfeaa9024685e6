// Where names are found: beside the file, in further places the caller adds (a store), then among what ships. Each find says where.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "trade/firing.h"
#include "trade/noun.h"
#include "trade/reader.h"

namespace heatwork::trade {

/// A text found under a name.
struct Found {
  std::shared_ptr<const Source> source;
  std::string place;  ///< as results print it: "beside: furnace-corner.toml", "shipped: materials/glaze.toml"
  int version = 0;    ///< of the document where it came from a store; 0: from elsewhere
};

/// One place names are sought in.
class Shelf {
 public:
  Shelf() = default;
  Shelf(const Shelf&) = delete;
  Shelf& operator=(const Shelf&) = delete;
  virtual ~Shelf() = default;
  /// Everything of that kind and name, in a fixed order; more than one is the user's mistake.
  [[nodiscard]] virtual std::vector<Found> find(Noun noun, std::string_view name) const = 0;
  /// Names of that kind, sorted, each once.
  [[nodiscard]] virtual std::vector<std::string> names(Noun noun) const = 0;
  /// "beside the file", for sentences.
  [[nodiscard]] virtual std::string_view in_words() const = 0;
};

/// The TOML files of a folder, not of folders in it. Files that hold no noun are passed over.
[[nodiscard]] std::unique_ptr<Shelf> folder_shelf(const std::filesystem::path& folder);
/// What the binary carries, except the demo lab, which is found beside its own files only.
[[nodiscard]] std::unique_ptr<Shelf> shipped_shelf();

/// A firing of the past with all it was fired with, where that is known from elsewhere; `as_found` is its newest text, its own past
/// cleared. Nothing: what it names is sought like any other name.
using FiringOfThePast = std::function<std::optional<ResolvedFiring>(const Firing& as_found)>;

/// Reads nouns by name from its shelves, in the order given.
class Library {
 public:
  explicit Library(AmbientOfAltitude ambient_of_altitude) : ambient_of_altitude_(ambient_of_altitude) {}

  void add(std::unique_ptr<Shelf> shelf) { shelves_.push_back(std::move(shelf)); }

  /// The text of a name. Errors: Mistake at `asked` where there is none or two in one place.
  [[nodiscard]] Found find(Noun noun, std::string_view name, const Place& asked) const;
  /// A noun of type T by name.
  template <class T>
  [[nodiscard]] T get(Noun noun, std::string_view name, const Place& asked, const ReadingContext& context = {}) const;
  /// Every name of a kind, sorted, each once.
  [[nodiscard]] std::vector<std::string> names(Noun noun) const;

  /// Finds everything a firing names. Errors: Mistake.
  [[nodiscard]] ResolvedFiring resolve(const Firing& firing, const FiringOfThePast& of_the_past = {}) const;

 private:
  friend class Resolver;
  /// Trays of the lab whose mass is known, lightest first, each with its text.
  [[nodiscard]] std::vector<std::pair<Tray, Found>> lab_trays() const;

  AmbientOfAltitude ambient_of_altitude_;
  std::vector<std::unique_ptr<Shelf>> shelves_;
};

/// Reads a text file whole. Errors: Mistake where it cannot be opened or is larger than any text that is read.
[[nodiscard]] std::shared_ptr<const Source> source_from_file(const std::filesystem::path& path);

/// Reads the firing of a file and finds what it names beside it and among what ships. Errors: Mistake.
[[nodiscard]] ResolvedFiring load_firing(const std::filesystem::path& path, AmbientOfAltitude ambient_of_altitude);

}  // namespace heatwork::trade
