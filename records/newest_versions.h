// Which version of each document is the newest by the trail, as digests: 8 bytes of a document, however long its name.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace heatwork::records {

/// A set of numbers with open addressing; at most three quarters full.
class NewestVersions {
 public:
  NewestVersions();
  /// False where it is in already.
  bool insert(std::uint64_t digest);
  /// False where it is not in.
  bool erase(std::uint64_t digest);
  [[nodiscard]] bool contains(std::uint64_t digest) const;
  [[nodiscard]] std::size_t size() const { return size_; }

 private:
  /// Where it is, or the free place where it would be.
  [[nodiscard]] std::size_t place(std::uint64_t digest) const;
  void grow();
  std::vector<std::uint64_t> places_;  ///< 0: free
  std::size_t size_ = 0;
};

}  // namespace heatwork::records
