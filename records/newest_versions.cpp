#include "records/newest_versions.h"

#include <utility>

namespace heatwork::records {

namespace {

constexpr std::size_t places_at_first = 1024;

std::uint64_t not_free(std::uint64_t digest) {
  return digest == 0 ? 1 : digest;
}

}  // namespace

NewestVersions::NewestVersions() : places_(places_at_first, 0) {}

std::size_t NewestVersions::place(std::uint64_t digest) const {
  const std::size_t mask = places_.size() - 1;
  std::size_t at = digest & mask;
  while (places_[at] != 0 && places_[at] != digest) at = (at + 1) & mask;
  return at;
}

bool NewestVersions::contains(std::uint64_t digest) const {
  return places_[place(not_free(digest))] != 0;
}

bool NewestVersions::insert(std::uint64_t digest) {
  if ((size_ + 1) * 4 > places_.size() * 3) grow();
  std::uint64_t& there = places_[place(not_free(digest))];
  if (there != 0) return false;
  there = not_free(digest);
  ++size_;
  return true;
}

bool NewestVersions::erase(std::uint64_t digest) {
  const std::size_t mask = places_.size() - 1;
  std::size_t hole = place(not_free(digest));
  if (places_[hole] == 0) return false;
  places_[hole] = 0;
  --size_;
  // What was put off by the one that went moves up, so that no search ends before it.
  for (std::size_t at = (hole + 1) & mask; places_[at] != 0; at = (at + 1) & mask) {
    const std::size_t home = places_[at] & mask;
    if (((at - home) & mask) < ((at - hole) & mask)) continue;
    places_[hole] = std::exchange(places_[at], 0);
    hole = at;
  }
  return true;
}

void NewestVersions::grow() {
  const std::vector<std::uint64_t> before = std::exchange(places_, std::vector<std::uint64_t>(places_.size() * 2, 0));
  for (const std::uint64_t digest : before)
    if (digest != 0) places_[place(digest)] = digest;
}

}  // namespace heatwork::records
