// What a route is: a method, a path with places in braces, who may, and the one desk call that answers it.
#pragma once

#include <chrono>
#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "desk/json_value.h"
#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"
#include "report/number.h"
#include "server/values.h"
#include "trade/words.h"

namespace heatwork::server {

struct Session;  // server/session.h

/// What whoever asks must be: nobody; signed in (the role "look"); of that role; one who may set up. Desk asks again when it keeps.
enum class Needs { nothing, sign_in, fire, release, set_up };
std::string_view word(Needs needs);

/// What a request carries besides its path.
enum class Carries {
  json,  ///< JSON of at most 1 MB where the method writes, nothing where it reads
  bytes  ///< anything, at most 10 MB
};

using Language = trade::Language;

struct Asked {
  desk::AskedLab lab;  ///< which store, and as whom
  Values path;         ///< {"kind": "program"}, each decoded and not empty
  Values query;        ///< read it by server/body.h: unknown names are refused there
  desk::Json body;     ///< null where none
  std::string raw, content_type;
  Language language = Language::english;
  report::TemperatureScale units = report::TemperatureScale::celsius;
  Session* session = nullptr;  ///< of whoever asks; nullptr only where the route needs nothing
};

/// A line to the page that stays open, for server-sent events. It holds one worker of the server as long as it is open.
class OpenLine {
 public:
  virtual ~OpenLine() = default;
  /// False once the listener has gone or the server stops: then return.
  virtual bool open() = 0;
  /// `data` is one line. False where the line is no longer open.
  virtual bool send(std::string_view event, std::string_view data) = 0;
  /// Waits, woken early when the server stops; keeps the line warm with a comment every 10 s. False where it is no longer open.
  virtual bool wait(std::chrono::milliseconds time) = 0;
};

struct Answer {
  int status = 200;
  std::string type = "application/json", body{};
  std::vector<std::pair<std::string, std::string>> headers{};  ///< besides those every answer has
  std::function<void(OpenLine&)> events{};                     ///< where set, the answer is this stream and `body` is not sent
};

/// 200 with the JSON of the use case, and "wrong": true in it where what was looked at is not as it should be.
Answer answer_of(const desk::CareAnswer& answer);
/// 200, or another status, with this JSON.
Answer answer_of(const desk::Json& json, int status = 200);

struct Route {
  std::string_view method;  ///< "GET", "POST", "PUT", "DELETE"; HEAD is answered by GET
  std::string_view path;    ///< "/api/documents/{kind}/{name}"
  std::string_view id;      ///< operationId of the description, also what the log calls it
  Needs needs = Needs::sign_in;
  std::function<Answer(const Asked&)> answer;  ///< throws what desk throws; server/answer.h makes the answer of it
  Carries carries = Carries::json;
};

}  // namespace heatwork::server
