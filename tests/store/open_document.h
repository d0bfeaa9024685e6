// Documents that desk wrote once with places left open, to be filled many times without writing or reading them anew.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "records/store.h"

namespace heatwork::store_proof {

/// What may be left open; in the text each is a word that stands nowhere else.
struct Open {
  enum At : std::size_t {
    name,
    of_case,
    firing,
    furnace,
    program,
    powder,  ///< a lot
    water,   ///< a lot
    piece_1,
    piece_2,
    piece_3,
    piece_4,
    piece_5,
    furnace_version,
    program_version,
    piece_version,
    planned_for,
    started,  ///< also when a thing happened that has but one moment
    ended,
    day,
    later_day,
    code,
    degrees,
    inputs_hash,
    places
  };
};
constexpr std::size_t most_pieces = 5;

/// The word that stands for it.
std::string_view open_word(Open::At open);
using Fillings = std::array<std::string, Open::places>;

class OpenText {
 public:
  explicit OpenText(std::string_view text);
  [[nodiscard]] std::string filled(const Fillings& with) const;

 private:
  struct Part {
    std::string before;
    Open::At open = Open::places;  ///< places: nothing
    bool capital = false;          ///< it begins a sentence
  };
  std::vector<Part> parts_;
};

class OpenDocument {
 public:
  /// The index is asked for once, and its places are left open too.
  OpenDocument(std::string kind, const std::string& body, const records::IndexOf& index_of, std::string_view id = open_word(Open::name));

  [[nodiscard]] const std::string& kind() const { return kind_; }
  [[nodiscard]] std::string body(const Fillings& with) const { return body_.filled(with); }
  [[nodiscard]] records::Index index(const Fillings& with) const;

 private:
  struct OpenUse {
    Open::At at;
    OpenText piece, furnace, program, lot;
  };
  struct OpenDue {
    OpenText on, what;
  };

  std::string kind_;
  OpenText body_, label_, words_;
  std::string state_;
  Open::At at_;
  std::vector<OpenUse> uses_;
  std::vector<OpenDue> dues_;
};

}  // namespace heatwork::store_proof
