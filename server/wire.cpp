#include "server/wire.h"

#include <openssl/err.h>
#include <openssl/ssl.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>

namespace heatwork::server {
namespace {

constexpr std::size_t buffer_bytes = 16 * 1024;

int milliseconds_until(Moment until) {
  const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until - std::chrono::steady_clock::now()).count();
  return static_cast<int>(std::clamp<std::int64_t>(left + 1, 0, 3'600'000));
}

}  // namespace

Wire::Wire(int socket, int stop, std::string from) : socket_(socket), stop_(stop), from_(std::move(from)) {}

Wire::~Wire() {
  if (tls_ != nullptr) {
    if (!broken_) SSL_shutdown(tls_);  // says good-bye and waits for none
    SSL_free(tls_);
    ERR_clear_error();
  }
  // What the other end still sends would else make the kernel throw away what was written and not yet read.
  ::shutdown(socket_, SHUT_WR);
  std::array<char, 4096> rest{};
  while (::recv(socket_, rest.data(), rest.size(), MSG_DONTWAIT) > 0) {
  }
  ::close(socket_);
}

Wire::Ready Wire::wait(short events, Moment until, bool heed_stop) const {
  while (true) {
    std::array<pollfd, 2> asked{{{socket_, events, 0}, {stop_, POLLIN, 0}}};
    const int ready = ::poll(asked.data(), heed_stop ? 2 : 1, milliseconds_until(until));
    if (ready < 0 && errno == EINTR) continue;
    if (ready <= 0) return Ready::time_is_over;
    if (heed_stop && asked[1].revents != 0) return Ready::stopping;
    return Ready::yes;
  }
}

bool Wire::secure(ssl_ctx_st& context, Moment until) {
  tls_ = SSL_new(&context);
  if (tls_ == nullptr || SSL_set_fd(tls_, socket_) != 1) return false;
  while (true) {
    ERR_clear_error();
    const int done = SSL_accept(tls_);
    if (done == 1) return true;
    const int why = SSL_get_error(tls_, done);
    const short events = why == SSL_ERROR_WANT_READ ? POLLIN : why == SSL_ERROR_WANT_WRITE ? POLLOUT : 0;
    if (events == 0 || wait(events, until, true) != Ready::yes) {
      broken_ = true;
      return false;
    }
  }
}

ssize_t Wire::try_read(short& events) {
  events = POLLIN;
  if (tls_ == nullptr) {
    const ssize_t got = ::recv(socket_, buffer_.data(), buffer_.size(), MSG_DONTWAIT);
    if (got > 0) return got;
    return got < 0 && (errno == EAGAIN || errno == EINTR) ? 0 : -1;
  }
  ERR_clear_error();
  const int got = SSL_read(tls_, buffer_.data(), static_cast<int>(buffer_.size()));
  if (got > 0) return got;
  const int why = SSL_get_error(tls_, got);
  if (why == SSL_ERROR_WANT_WRITE) events = POLLOUT;
  if (why == SSL_ERROR_WANT_READ || why == SSL_ERROR_WANT_WRITE) return 0;
  broken_ = broken_ || why != SSL_ERROR_ZERO_RETURN;
  return -1;
}

ssize_t Wire::try_write(const char* bytes, std::size_t size, short& events) {
  events = POLLOUT;
  if (tls_ == nullptr) {
    const ssize_t put = ::send(socket_, bytes, size, MSG_DONTWAIT | MSG_NOSIGNAL);
    if (put >= 0) return put;
    return errno == EAGAIN || errno == EINTR ? 0 : -1;
  }
  ERR_clear_error();
  const int put = SSL_write(tls_, bytes, static_cast<int>(std::min<std::size_t>(size, 1 << 20)));
  if (put > 0) return put;
  const int why = SSL_get_error(tls_, put);
  if (why == SSL_ERROR_WANT_READ) events = POLLIN;
  if (why == SSL_ERROR_WANT_READ || why == SSL_ERROR_WANT_WRITE) return 0;
  broken_ = true;
  return -1;
}

bool Wire::fill(Moment until, bool heed_stop) {
  if (buffer_.empty()) buffer_.resize(buffer_bytes);
  while (true) {
    short events = 0;
    const ssize_t got = try_read(events);
    if (got < 0) return false;
    if (got > 0) {
      at_ = 0;
      end_ = static_cast<std::size_t>(got);
      return true;
    }
    const Ready ready = wait(events, until, heed_stop);
    if (ready != Ready::yes) {
      too_slow_ = ready == Ready::time_is_over;
      return false;
    }
  }
}

bool Wire::request_begins(Moment until) {
  const bool begun = at_ < end_ || fill(until, true);
  too_slow_ = too_much_ = false;
  return begun;
}

void Wire::allow(Moment until, std::size_t bytes) {
  read_until_ = until;
  left_ = bytes;
}

ssize_t Wire::read(char* into, std::size_t size) {
  if (left_ == 0) {
    too_much_ = true;
    return -1;
  }
  // A drip keeps the buffer full of little: the time is looked at for each read.
  if (std::chrono::steady_clock::now() >= read_until_) {
    too_slow_ = true;
    return -1;
  }
  if (at_ == end_ && !fill(read_until_, false)) return too_slow_ ? -1 : 0;
  const std::size_t taken = std::min({size, end_ - at_, left_});
  std::memcpy(into, buffer_.data() + at_, taken);
  at_ += taken;
  left_ -= taken;
  return static_cast<ssize_t>(taken);
}

bool Wire::read_whole(std::string& into, std::size_t bytes) {
  constexpr std::size_t step = 64 * 1024;  // what is announced is not reserved before it comes
  into.clear();
  while (into.size() < bytes) {
    const std::size_t had = into.size(), wanted = std::min(step, bytes - had);
    into.resize(had + wanted);
    const ssize_t got = read(into.data() + had, wanted);
    into.resize(had + static_cast<std::size_t>(std::max<ssize_t>(got, 0)));
    if (got <= 0) return false;
  }
  return true;
}

ssize_t Wire::write(const char* bytes, std::size_t size) {
  std::size_t done = 0;
  while (done < size) {
    short events = 0;
    const ssize_t put = broken_ ? -1 : try_write(bytes + done, size - done, events);
    if (put < 0 || (put == 0 && wait(events, write_until_, false) != Ready::yes)) {
      broken_ = true;
      return -1;
    }
    done += static_cast<std::size_t>(put);
  }
  return static_cast<ssize_t>(size);
}

bool Wire::gone() {
  if (broken_) return true;
  pollfd asked{socket_, POLLIN | POLLRDHUP, 0};
  if (::poll(&asked, 1, 0) <= 0) return false;
  if ((asked.revents & (POLLRDHUP | POLLHUP | POLLERR)) != 0) return true;
  char byte = 0;
  return tls_ == nullptr && ::recv(socket_, &byte, 1, MSG_PEEK | MSG_DONTWAIT) == 0;
}

bool Wire::stopping() const {
  pollfd asked{stop_, POLLIN, 0};
  return ::poll(&asked, 1, 0) > 0;
}

void Wire::rest(std::chrono::milliseconds time) {
  std::array<pollfd, 2> asked{{{stop_, POLLIN, 0}, {socket_, POLLRDHUP, 0}}};
  ::poll(asked.data(), asked.size(), static_cast<int>(std::clamp<std::int64_t>(time.count(), 0, 60'000)));
}

}  // namespace heatwork::server
