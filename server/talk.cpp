#include "server/talk.h"

#include <fmt/format.h>
#include <httplib.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <optional>
#include <utility>

#include "desk/errors.h"
#include "server/answer.h"

namespace heatwork::server {
namespace {

using std::chrono::milliseconds;
using std::chrono::seconds;
using std::chrono::steady_clock;

constexpr auto heartbeat = seconds(10);

/// The wire as the library knows one. What the library would say by itself of a request it cannot read is held back; we say it.
class Spoken : public httplib::Stream {
 public:
  explicit Spoken(Wire& wire) : wire_(wire) {}
  bool may_speak = false;
  std::size_t put = 0;  ///< bytes written

  [[nodiscard]] bool is_readable() const override { return true; }
  [[nodiscard]] bool is_writable() const override { return true; }
  ssize_t read(char* into, size_t size) override { return wire_.read(into, size); }
  ssize_t write(const char* bytes, size_t size) override {
    if (!may_speak) return static_cast<ssize_t>(size);
    put += size;
    return wire_.write(bytes, size);
  }
  void get_remote_ip_and_port(std::string& ip, int& port) const override {
    ip = wire_.from();
    port = 0;
  }
  void get_local_ip_and_port(std::string& ip, int& port) const override {
    ip.clear();
    port = 0;
  }
  [[nodiscard]] socket_t socket() const override { return wire_.socket(); }

 private:
  Wire& wire_;
};

/// Server-sent events over the chunks of an answer.
class EventLine : public OpenLine {
 public:
  EventLine(Wire& wire, httplib::DataSink& sink, seconds answer) : wire_(wire), sink_(sink), answer_(answer) {}

  bool open() override { return open_ && !wire_.stopping() && !wire_.gone(); }
  bool send(std::string_view event, std::string_view data) override { return put(fmt::format("event: {}\ndata: {}\n\n", event, data)); }
  bool wait(milliseconds time) override {
    const auto until = steady_clock::now() + time;
    while (open()) {
      const auto now = steady_clock::now();
      if (now >= until) return true;
      if (now - last_ >= heartbeat && !put(": still here\n\n")) return false;
      wire_.rest(std::chrono::duration_cast<milliseconds>(std::min(until - now, last_ + heartbeat - now)) + milliseconds(1));
    }
    return false;
  }

 private:
  bool put(const std::string& text) {
    wire_.must_be_written_by(steady_clock::now() + answer_);
    last_ = steady_clock::now();
    open_ = open_ && sink_.write(text.data(), text.size());
    return open_;
  }

  Wire& wire_;
  httplib::DataSink& sink_;
  seconds answer_;
  bool open_ = true;
  steady_clock::time_point last_ = steady_clock::now();
};

/// Not a request that can be answered by the front: read wrongly, too long, too slow.
Answer not_heard(const Wire& wire) {
  using enum desk::ErrorWord;
  if (wire.too_much()) return refusal(too_large, "The first line and the headers of the request are longer than this server reads.", 431);
  if (wire.too_slow()) return refusal(wrong_use, "The request did not come whole in time.", 408);
  return refusal(wrong_use, "The request is not HTTP as this server reads it.");
}

std::string raw_answer(const Answer& answer) {
  std::string text =
      fmt::format("HTTP/1.1 {} {}\r\nContent-Type: {}\r\nContent-Length: {}\r\nCache-Control: no-store\r\nConnection: close\r\n",
                  answer.status, "Refused", answer.type, answer.body.size());
  for (const auto& [name, value] : headers_of_all()) text += fmt::format("{}: {}\r\n", name, value);
  return text + "\r\n" + answer.body;
}

/// The length a request announces; nothing where it is announced wrongly.
std::optional<std::size_t> length_of(const httplib::Request& request) {
  if (request.get_header_value_count("Content-Length") == 0) return 0;
  const std::string text = request.get_header_value("Content-Length");
  std::size_t length = 0;
  const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), length);
  const bool good = problem == std::errc() && end == text.data() + text.size() && request.get_header_value_count("Content-Length") == 1;
  return good ? std::optional(length) : std::nullopt;
}

/// The library's own reader and writer of requests, without its sockets and its own routing.
class Talk : private httplib::Server {
 public:
  Talk(Wire& wire, Front& front, Answering& answering, const Limits& limits)
      : wire_(wire), front_(front), answering_(answering), limits_(limits), spoken_(wire) {
    svr_sock_ = wire.socket();  // the library takes a server without one for one that is stopping
    set_keep_alive_timeout(limits.idle_s);
    set_keep_alive_max_count(static_cast<std::size_t>(limits.requests));
    set_pre_routing_handler([this](const httplib::Request& request, httplib::Response& response) { return respond(request, response); });
  }

  /// False where the connection is to be closed after it.
  bool one_request(bool last, Told& told) {
    const auto begun = steady_clock::now();
    wire_.allow(begun + seconds(limits_.request_s), limits_.header_bytes);
    bool closed = false;
    const bool done = process_request(spoken_, last, closed, [this](httplib::Request& request) { read_body(request); });
    if (!spoken_.may_speak && (done || wire_.too_much() || wire_.too_slow())) {
      const Answer answer = not_heard(wire_);
      told = {"", "none", answer.status, 0, 0};
      wire_.must_be_written_by(steady_clock::now() + seconds(1));
      const std::string text = raw_answer(answer);
      wire_.write(text.data(), text.size());
      closed = true;
    } else {
      told = told_;
    }
    told.milliseconds = std::chrono::duration<double, std::milli>(steady_clock::now() - begun).count();
    told.bytes = spoken_.put;
    return done && !closed && !last && !refused_;
  }

 private:
  void refuse(desk::ErrorWord error, const std::string& sentence, int status = 0) { refused_ = refusal(error, sentence, status); }

  /// Reads the body before the library would: our limits by route, a deadline for the whole, nothing unpacked.
  void read_body(httplib::Request& request) {
    heard_ = {};
    heard_.method = request.method;
    heard_.target = request.target;
    heard_.from = wire_.from();
    heard_.secure = wire_.is_secure();
    for (const auto& [name, value] : request.headers) heard_.headers.emplace_back(name, value);
    // These the library would act on: parts of an answer, packing, waiting for leave.
    request.ranges.clear();
    request.headers.erase("Accept-Encoding");
    const bool waits_for_leave = request.headers.erase("Expect") > 0;
    const auto length = length_of(request);
    if (!length) return refuse(desk::ErrorWord::wrong_use, "The header Content-Length must be given once, as a whole number.");
    if (request.has_header("Transfer-Encoding"))
      return refuse(desk::ErrorWord::wrong_use, "A body must be sent with its Content-Length, not in chunks.", 411);
    if (request.has_header("Content-Encoding"))
      return refuse(desk::ErrorWord::wrong_use, "A body must be sent as it is, without Content-Encoding.", 415);
    const Route* route = front_.route_of(heard_);
    const std::size_t most = route != nullptr && route->carries == Carries::bytes ? limits_.photo_bytes : limits_.json_bytes;
    if (*length > most)
      return refuse(desk::ErrorWord::too_large, fmt::format("The request carries {} bytes; here at most {} are read.", *length, most));
    if (*length == 0) return;
    wire_.allow(steady_clock::now() + seconds(limits_.request_s + static_cast<int>(*length / 1024) / limits_.body_kB_a_s), *length);
    wire_.must_be_written_by(steady_clock::now() + seconds(limits_.answer_s));
    constexpr std::string_view leave = "HTTP/1.1 100 Continue\r\n\r\n";
    if (waits_for_leave) wire_.write(leave.data(), leave.size());
    if (!wire_.read_whole(heard_.body, *length)) refuse(desk::ErrorWord::wrong_use, "The request did not come whole in time.", 408);
  }

  HandlerResponse respond(const httplib::Request&, httplib::Response& response) {
    Answer answer;
    if (refused_)
      answer = *refused_;
    else
      answering_.have_done([&] { answer = front_.answer(heard_); });
    told_ = {heard_.method, front_.name_for_log(heard_), answer.status, 0, 0};
    response.status = answer.status;
    for (const auto& [name, value] : headers_of_all()) response.set_header(name, value);
    for (const auto& [name, value] : answer.headers) response.set_header(name, value);
    if (!response.has_header("Cache-Control")) response.set_header("Cache-Control", "no-store");
    if (refused_) response.set_header("Connection", "close");
    wire_.must_be_written_by(steady_clock::now() + seconds(limits_.answer_s));
    spoken_.may_speak = true;
    if (answer.events && heard_.method != "HEAD") {
      put_events(std::move(answer.events), response);
    } else {
      response.set_header("Content-Type", answer.type);
      response.body = std::move(answer.body);
    }
    return HandlerResponse::Handled;
  }

  void put_events(std::function<void(OpenLine&)> events, httplib::Response& response) {
    response.set_chunked_content_provider("text/event-stream", [this, events = std::move(events)](std::size_t, httplib::DataSink& sink) {
      EventLine line(wire_, sink, seconds(limits_.answer_s));
      try {
        events(line);
      } catch (...) {
        line.send("failed", "{}");  // what is thrown after the headers has no status any more
      }
      sink.done();
      return true;
    });
  }

  Wire& wire_;
  Front& front_;
  Answering& answering_;
  const Limits& limits_;
  Spoken spoken_;
  Heard heard_;
  Told told_;
  std::optional<Answer> refused_;
};

}  // namespace

void hold_talk(Wire& wire, Front& front, Answering& answering, const Limits& limits, const std::function<void(const Told&)>& tell) {
  int wait_s = limits.first_byte_s;
  for (int count = 1; count <= limits.requests && wire.request_begins(steady_clock::now() + seconds(wait_s)); ++count) {
    Told told;
    const bool goes_on = Talk(wire, front, answering, limits).one_request(count == limits.requests, told);
    if (told.status != 0) tell(told);
    if (!goes_on) return;
    wait_s = limits.idle_s;
  }
}

}  // namespace heatwork::server
