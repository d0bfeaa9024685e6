#include "records/balance.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace heatwork::records {

namespace {

constexpr std::size_t buckets = std::size_t{1} << 18;

void put(std::string& bytes, std::string_view text) {
  fmt::format_to(std::back_inserter(bytes), "{}:", text.size());
  bytes += text;
}

}  // namespace

Fact::Fact(char sort, std::string_view kind, std::string_view id) {
  bytes_.reserve(256);
  bytes_ += sort;
  put(bytes_, kind);
  put(bytes_, id);
  about_ = bytes_.size() - 1;
}

Fact& Fact::value(std::string_view text) {
  put(bytes_, text);
  return *this;
}

Fact& Fact::value(std::int64_t number) {
  fmt::format_to(std::back_inserter(bytes_), "#{}", number);
  return *this;
}

Balance::Balance(const DigestKey& key) : key_(key), sums_(buckets, Digest{0, 0}), suspected_(buckets, false) {}

std::size_t Balance::bucket(std::string_view about) const {
  return keyed_digest(key_, about)[0] % buckets;
}

Digest Balance::add(const Fact& fact) {
  const Digest digest = keyed_digest(key_, fact.bytes());
  Digest& sum = sums_[bucket(fact.about())];
  sum[0] += digest[0];
  sum[1] += digest[1];
  return digest;
}

Digest Balance::take_off(const Fact& fact) {
  const Digest digest = keyed_digest(key_, fact.bytes());
  Digest& sum = sums_[bucket(fact.about())];
  sum[0] -= digest[0];
  sum[1] -= digest[1];
  return digest;
}

void Balance::suspect(std::string_view kind, std::string_view id) {
  suspected_[bucket(Fact(' ', kind, id).about())] = true;
}

void Balance::join(const Balance& other) {
  for (std::size_t i = 0; i < buckets; ++i) {
    sums_[i][0] += other.sums_[i][0];
    sums_[i][1] += other.sums_[i][1];
    if (other.suspected_[i]) suspected_[i] = true;
  }
}

bool Balance::even() const {
  return std::none_of(suspected_.begin(), suspected_.end(), [](bool one) { return one; }) &&
         std::all_of(sums_.begin(), sums_.end(), [](const Digest& sum) {
           return sum == Digest{0, 0};
         });
}

bool Balance::suspicious(std::string_view kind, std::string_view id) const {
  const std::size_t at = bucket(Fact(' ', kind, id).about());
  return suspected_[at] || sums_[at] != Digest{0, 0};
}

}  // namespace heatwork::records
