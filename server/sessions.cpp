#include "server/sessions.h"

#include <sodium.h>

#include <algorithm>
#include <array>
#include <stdexcept>
#include <vector>

namespace heatwork::server {
namespace {

constexpr std::size_t most_sessions = 4096;
constexpr std::size_t id_bytes = 32;

std::string hexadecimal(const unsigned char* bytes, std::size_t size) {
  std::string text(size * 2 + 1, '\0');
  sodium_bin2hex(text.data(), text.size(), bytes, size);
  text.pop_back();
  return text;
}

}  // namespace

std::string key_of_secret(const std::string& id) {
  std::array<unsigned char, crypto_generichash_BYTES> hash{};
  crypto_generichash(hash.data(), hash.size(), reinterpret_cast<const unsigned char*>(id.data()), id.size(), nullptr, 0);
  return hexadecimal(hash.data(), hash.size());
}

std::string token_of(const std::string& id) {
  return key_of_secret("what writes carry: " + id);
}

std::string random_id() {
  if (sodium_init() < 0) throw std::runtime_error("the machine gives no random numbers");
  std::array<unsigned char, id_bytes> bytes{};
  randombytes_buf(bytes.data(), bytes.size());
  return hexadecimal(bytes.data(), bytes.size());
}

bool same_secret(std::string_view one, std::string_view other) {
  return one.size() == other.size() && sodium_memcmp(one.data(), other.data(), one.size()) == 0;
}

bool Sessions::ended(const Session& session, std::int64_t now_ms) const {
  const std::int64_t idle = session.by == SignedInBy::pin ? times_.pin_idle_ms : times_.idle_ms;
  return now_ms - session.seen_ms > idle || now_ms - session.begun_ms > times_.absolute_ms;
}

void Sessions::make_room(std::int64_t now_ms) {
  if (by_key_.size() < most_sessions) return;
  std::erase_if(by_key_, [&](const auto& entry) { return ended(*entry.second, now_ms); });
  while (by_key_.size() >= most_sessions) {  // those of the machine first, then whoever was longest away
    const auto oldest = std::min_element(by_key_.begin(), by_key_.end(), [](const auto& one, const auto& other) {
      const bool one_signed = one.second->by != SignedInBy::machine, other_signed = other.second->by != SignedInBy::machine;
      return one_signed != other_signed ? other_signed : one.second->seen_ms < other.second->seen_ms;
    });
    by_key_.erase(oldest);
  }
}

Sessions::Begun Sessions::begin(SignedInBy by, const std::string& person, std::int64_t now_ms) {
  Begun begun{random_id(), std::make_shared<Session>()};
  Session& session = *begun.session;
  session.key = key_of_secret(begun.id);
  session.token = token_of(begun.id);
  session.person = person;
  session.by = by;
  session.begun_ms = session.seen_ms = now_ms;
  if (by == SignedInBy::password) session.password_until_ms = now_ms + times_.password_ms;
  const std::lock_guard lock(mutex_);
  make_room(now_ms);
  by_key_[session.key] = begun.session;
  return begun;
}

std::shared_ptr<Session> Sessions::find(const std::string& id, std::int64_t now_ms) {
  const std::string key = key_of_secret(id);
  const std::lock_guard lock(mutex_);
  const auto found = by_key_.find(key);
  if (found == by_key_.end()) return nullptr;
  if (ended(*found->second, now_ms)) {
    by_key_.erase(found);
    return nullptr;
  }
  if (found->second->token.empty()) found->second->token = token_of(id);  // it was put back
  found->second->seen_ms = now_ms;
  return found->second;
}

void Sessions::end(const Session& session) {
  const std::lock_guard lock(mutex_);
  by_key_.erase(session.key);
}

void Sessions::end_all_of(const std::string& person, const Session* but) {
  const std::lock_guard lock(mutex_);
  std::erase_if(by_key_, [&](const auto& entry) { return entry.second->person == person && entry.second.get() != but; });
}

std::vector<SessionKept> Sessions::all() const {
  const std::lock_guard lock(mutex_);
  std::vector<SessionKept> all;
  for (const auto& [key, session] : by_key_) {
    if (session->by == SignedInBy::machine && !session->demo) continue;
    all.push_back(
        {key, session->person, session->mark, session->by, session->demo, session->begun_ms, session->seen_ms, session->password_until_ms});
  }
  std::sort(all.begin(), all.end(), [](const SessionKept& one, const SessionKept& other) { return one.key < other.key; });
  return all;
}

void Sessions::put_back(const std::vector<SessionKept>& kept, std::int64_t now_ms) {
  const std::lock_guard lock(mutex_);
  for (const SessionKept& each : kept) {
    auto session = std::make_shared<Session>();
    session->key = each.key;
    session->person = each.person;
    session->mark = each.mark;
    session->by = each.by;
    session->demo = each.demo;
    session->begun_ms = each.begun_ms;
    session->seen_ms = each.seen_ms;
    session->password_until_ms = each.password_until_ms;
    if (!ended(*session, now_ms) && by_key_.size() < most_sessions) by_key_[each.key] = std::move(session);
  }
}

std::size_t Sessions::count() const {
  const std::lock_guard lock(mutex_);
  return by_key_.size();
}

}  // namespace heatwork::server
