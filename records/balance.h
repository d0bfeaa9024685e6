// Two tellings of the same facts, held against each other without sorting or keeping them: each fact is digested under a key drawn for
// this run, told once it is added and told by the other side it is taken off. Where a sum is not zero, the tellings differ.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "records/hash.h"

namespace heatwork::records {

/// A fact as bytes: what it is about first, then its values, each with its length before it.
class Fact {
 public:
  Fact(char sort, std::string_view kind, std::string_view id);
  Fact& value(std::string_view text);
  Fact& value(std::int64_t number);
  [[nodiscard]] std::string_view about() const { return std::string_view(bytes_).substr(1, about_); }
  [[nodiscard]] std::string_view bytes() const { return bytes_; }

 private:
  std::string bytes_;
  std::size_t about_ = 0;
};

/// Facts are summed in buckets by what they are about, so that a difference leads to a few names. 4 MB, whatever the store's size. Of
/// altered facts, one in 2^128 is missed.
class Balance {
 public:
  explicit Balance(const DigestKey& key);

  Digest add(const Fact& fact);
  Digest take_off(const Fact& fact);
  /// Something of this name is wrong by itself.
  void suspect(std::string_view kind, std::string_view id);
  void join(const Balance& other);

  [[nodiscard]] Digest digest(const Fact& fact) const { return keyed_digest(key_, fact.bytes()); }
  [[nodiscard]] bool even() const;
  /// A name like it was suspected, or its sums are not even.
  [[nodiscard]] bool suspicious(std::string_view kind, std::string_view id) const;

 private:
  [[nodiscard]] std::size_t bucket(std::string_view about) const;
  DigestKey key_;
  std::vector<Digest> sums_;
  std::vector<bool> suspected_;
};

}  // namespace heatwork::records
