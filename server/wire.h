// One connection as bytes, with a deadline for whatever is waited for: nobody who is slow or silent holds a worker longer than said.
#pragma once

#include <sys/types.h>

#include <chrono>
#include <string>
#include <vector>

// The TLS library's own types are named and never looked into here.
struct ssl_st;
struct ssl_ctx_st;

namespace heatwork::server {

using Moment = std::chrono::steady_clock::time_point;

class Wire {
 public:
  /// Takes over the socket, and closes it. `stop`: a descriptor that can be read once the server stops.
  Wire(int socket, int stop, std::string from);
  Wire(const Wire&) = delete;
  Wire& operator=(const Wire&) = delete;
  ~Wire();

  /// Speaks TLS from here on. False where the other end does not, in time.
  bool secure(ssl_ctx_st& context, Moment until);

  /// Waits for the first byte of a request. False where none came in time, the other end has gone, or the server stops.
  bool request_begins(Moment until);
  /// From here on reading ends at that moment, and after so many bytes.
  void allow(Moment until, std::size_t bytes);
  /// Each answer, or each piece of a stream, must be taken by that moment.
  void must_be_written_by(Moment until) { write_until_ = until; }
  /// So many bytes of a body. False where they did not come.
  bool read_whole(std::string& into, std::size_t bytes);

  [[nodiscard]] bool too_much() const { return too_much_; }  ///< reading ended because of the count of bytes
  [[nodiscard]] bool too_slow() const { return too_slow_; }  ///< because of the time
  /// Whether the other end has closed, or sent what nobody asked for; looked at without waiting.
  [[nodiscard]] bool gone();
  [[nodiscard]] bool stopping() const;
  /// Sleeps, woken early when the server stops or the other end goes.
  void rest(std::chrono::milliseconds time);
  [[nodiscard]] const std::string& from() const { return from_; }
  [[nodiscard]] bool is_secure() const { return tls_ != nullptr; }

  /// Bytes read, 0 at the end, -1 where nothing more may or will come.
  ssize_t read(char* into, std::size_t size);
  /// All of it, or -1.
  ssize_t write(const char* bytes, std::size_t size);
  [[nodiscard]] int socket() const { return socket_; }

 private:
  enum class Ready { yes, time_is_over, stopping };
  Ready wait(short events, Moment until, bool heed_stop) const;
  /// Fills the buffer. False at the end, or when the time is over.
  bool fill(Moment until, bool heed_stop);
  /// One try to read or write: bytes done, 0 where it must wait for `events`, -1 where nothing goes any more.
  ssize_t try_read(short& events);
  ssize_t try_write(const char* bytes, std::size_t size, short& events);

  int socket_, stop_;
  ssl_st* tls_ = nullptr;
  std::string from_;
  std::vector<char> buffer_;
  std::size_t at_ = 0, end_ = 0;
  Moment read_until_{}, write_until_{};
  std::size_t left_ = 0;
  bool too_much_ = false, too_slow_ = false, broken_ = false;
};

}  // namespace heatwork::server
