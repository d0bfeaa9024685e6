#include "server/connections.h"

#include <arpa/inet.h>
#include <fmt/format.h>
#include <httplib.h>
#include <netdb.h>
#include <netinet/tcp.h>
#include <openssl/ssl.h>
#include <poll.h>
#include <sys/eventfd.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <map>
#include <mutex>
#include <system_error>

#include "desk/errors.h"
#include "server/answer.h"
#include "server/answering.h"
#include "server/talk.h"
#include "server/wire.h"

namespace heatwork::server {
namespace {

constexpr int backlog = 512;
constexpr std::size_t spare_workers = 16;
constexpr int look_ms = 200;  // how often the end is asked for

std::string text_of(const sockaddr_storage& address) {
  std::array<char, NI_MAXHOST> text{};
  const socklen_t size = address.ss_family == AF_INET6 ? sizeof(sockaddr_in6) : sizeof(sockaddr_in);
  if (::getnameinfo(reinterpret_cast<const sockaddr*>(&address), size, text.data(), text.size(), nullptr, 0, NI_NUMERICHOST) != 0)
    return "";
  const std::string all = text.data();
  return all.starts_with("::ffff:") ? all.substr(7) : all;
}

[[noreturn]] void cannot_listen(const std::string& address, int port, int error) {
  const std::string why = error == EADDRINUSE      ? "another program has it; --port names another, 0 takes any that is free"
                          : error == EADDRNOTAVAIL ? "this machine has no such address"
                          : error == EACCES        ? "ports below 1024 are for the system; --port names another"
                                                   : std::generic_category().message(error);
  throw desk::Failure(desk::ErrorWord::cannot_listen, fmt::format("Cannot listen at {} port {}: {}.", address, port, why));
}

/// A socket that listens there. Errors: Failure.
int bound(const std::string& address, int port) {
  addrinfo hints{};
  hints.ai_flags = AI_NUMERICHOST | AI_PASSIVE;
  hints.ai_socktype = SOCK_STREAM;
  addrinfo* found = nullptr;
  if (::getaddrinfo(address.c_str(), std::to_string(port).c_str(), &hints, &found) != 0)
    throw desk::Failure(desk::ErrorWord::wrong_use, fmt::format("\"{}\" is no address; one is 127.0.0.1, another ::1.", address));
  const int made = ::socket(found->ai_family, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0);
  const int on = 1;
  int error = made < 0 ? errno : 0;
  if (error == 0) {
    ::setsockopt(made, SOL_SOCKET, SO_REUSEADDR, &on, sizeof on);
    if (found->ai_family == AF_INET6) ::setsockopt(made, IPPROTO_IPV6, IPV6_V6ONLY, &on, sizeof on);
    if (::bind(made, found->ai_addr, found->ai_addrlen) != 0 || ::listen(made, backlog) != 0) error = errno;
  }
  ::freeaddrinfo(found);
  if (error == 0) return made;
  if (made >= 0) ::close(made);
  cannot_listen(address, port, error);
}

int port_of(int socket) {
  sockaddr_storage address{};
  socklen_t size = sizeof address;
  ::getsockname(socket, reinterpret_cast<sockaddr*>(&address), &size);
  return ntohs(address.ss_family == AF_INET6 ? reinterpret_cast<sockaddr_in6&>(address).sin6_port
                                             : reinterpret_cast<sockaddr_in&>(address).sin_port);
}

/// Who is connected: how many in all and by address.
class Guests {
 public:
  Guests(const Limits& limits) : limits_(limits) {}
  bool let_in(const std::string& from) {
    const std::lock_guard lock(mutex_);
    std::size_t& of_it = by_address_[from];
    const bool own = from.starts_with("127.") || from == "::1";
    if (all_ >= limits_.connections || of_it >= (own ? limits_.connections : limits_.a_guest)) {
      if (of_it == 0) by_address_.erase(from);
      return false;
    }
    ++of_it;
    ++all_;
    return true;
  }
  void went(const std::string& from) {
    const std::lock_guard lock(mutex_);
    --all_;
    const auto found = by_address_.find(from);
    if (--found->second == 0) by_address_.erase(found);
  }

 private:
  const Limits& limits_;
  std::mutex mutex_;
  std::map<std::string, std::size_t> by_address_;
  std::size_t all_ = 0;
};

/// One too many: told so, and closed.
void turn_away(int socket, int stop) {
  Wire wire(socket, stop, "");
  const Answer busy = refusal(desk::ErrorWord::busy, "Too many connections are open; try again in some seconds.");
  wire.must_be_written_by(std::chrono::steady_clock::now());
  const std::string text =
      fmt::format("HTTP/1.1 503 Busy\r\nContent-Type: {}\r\nConnection: close\r\nRetry-After: 5\r\nContent-Length: {}\r\n\r\n{}", busy.type,
                  busy.body.size(), busy.body);
  wire.write(text.data(), text.size());
}

}  // namespace

struct Connections::Listening {
  std::vector<int> sockets;
  int stop = ::eventfd(0, EFD_CLOEXEC | EFD_NONBLOCK);
  std::unique_ptr<SSL_CTX, void (*)(SSL_CTX*)> tls{nullptr, SSL_CTX_free};
  ~Listening() {
    for (const int socket : sockets) ::close(socket);
    if (stop >= 0) ::close(stop);
  }
};

namespace {

std::unique_ptr<SSL_CTX, void (*)(SSL_CTX*)> tls_of(const std::string& certificate, const std::string& key) {
  std::unique_ptr<SSL_CTX, void (*)(SSL_CTX*)> tls{SSL_CTX_new(TLS_server_method()), SSL_CTX_free};
  SSL_CTX_set_min_proto_version(tls.get(), TLS1_2_VERSION);
  SSL_CTX_set_mode(tls.get(), SSL_MODE_ENABLE_PARTIAL_WRITE | SSL_MODE_ACCEPT_MOVING_WRITE_BUFFER);
  SSL_CTX_set_options(tls.get(), SSL_OP_NO_RENEGOTIATION | SSL_OP_NO_COMPRESSION | SSL_OP_CIPHER_SERVER_PREFERENCE);
  if (SSL_CTX_use_certificate_chain_file(tls.get(), certificate.c_str()) != 1 ||
      SSL_CTX_use_PrivateKey_file(tls.get(), key.c_str(), SSL_FILETYPE_PEM) != 1)
    throw desk::Failure(desk::ErrorWord::bad_file, fmt::format("The certificate in {} and its key cannot be used.", certificate));
  return tls;
}

}  // namespace

Connections::Connections(const std::vector<std::string>& addresses, int port, const Limits& limits)
    : listening_(std::make_unique<Listening>()), limits_(limits) {
  for (const std::string& address : addresses) {
    listening_->sockets.push_back(bound(address, port));
    port = port_of(listening_->sockets.front());
  }
}

void Connections::secure(const std::string& certificate, const std::string& key) {
  listening_->tls = tls_of(certificate, key);
}

Connections::~Connections() = default;

int Connections::port() const {
  return port_of(listening_->sockets.front());
}

void Connections::serve(Front& front, const std::function<bool()>& stop, const std::function<void(const Told&)>& tell) {
  Guests guests(limits_);
  Answering answering;
  httplib::ThreadPool workers(limits_.connections + spare_workers);
  std::vector<pollfd> asked;
  for (const int socket : listening_->sockets) asked.push_back({socket, POLLIN, 0});
  while (!stop()) {
    if (::poll(asked.data(), asked.size(), look_ms) <= 0) continue;
    for (const pollfd& one : asked) {
      if ((one.revents & POLLIN) == 0) continue;
      sockaddr_storage address{};
      socklen_t size = sizeof address;
      const int taken = ::accept4(one.fd, reinterpret_cast<sockaddr*>(&address), &size, SOCK_CLOEXEC | SOCK_NONBLOCK);
      if (taken < 0) {
        // No descriptor or memory is left: those who wait are not forgotten, they wait.
        if (errno == EMFILE || errno == ENFILE || errno == ENOMEM || errno == ENOBUFS) ::usleep(10'000);
        continue;
      }
      const std::string from = text_of(address);
      if (!guests.let_in(from)) {
        turn_away(taken, listening_->stop);
        continue;
      }
      const int on = 1;
      ::setsockopt(taken, IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
      workers.enqueue([&, taken, from] {
        {
          Wire wire(taken, listening_->stop, from);
          const auto greeting = std::chrono::steady_clock::now() + std::chrono::seconds(limits_.first_byte_s);
          if (listening_->tls == nullptr || wire.secure(*listening_->tls, greeting)) hold_talk(wire, front, answering, limits_, tell);
        }
        guests.went(from);
      });
    }
  }
  const std::uint64_t one = 1;
  [[maybe_unused]] const ssize_t ignored = ::write(listening_->stop, &one, sizeof one);
  workers.shutdown();
}

}  // namespace heatwork::server
