#include <fmt/format.h>

#include <string>

#include "desk/errors.h"
#include "desk/lab/bench_work.h"
#include "desk/lab/firing_work.h"
#include "desk/lab/image_kind.h"
#include "server/answer.h"
#include "server/body.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

Answer start(const Asked& asked) {
  const Body body("the body", asked.body, {"read_back", "at"});
  return told_answer(asked, desk::start_firing(asked.lab, {asked.path.at("name"), body.text_or("read_back", ""), body.text_or("at", "")}));
}

/// "pieces": how each came out; the rest as read off the furnace.
Answer end(const Asked& asked) {
  const Body body("the body", asked.body, {"pieces", "highest_display", "hold", "lowest_pressure", "duration", "at"});
  desk::EndWords words;
  words.firing = asked.path.at("name");
  for (const desk::Json& each : body.list("pieces")) {
    const Body result("a piece", each, {"piece", "outcome", "looked_like", "seen"});
    const std::string piece = result.text("piece");
    words.outcomes.push_back(fmt::format("{}={}", piece, result.text("outcome")));
    if (result.has("looked_like")) words.looked_like.push_back(fmt::format("{}={}", piece, result.text("looked_like")));
    if (result.has("seen")) words.seen.push_back(fmt::format("{}={}", piece, result.text("seen")));
  }
  words.highest_display = body.text_or("highest_display", "");
  words.hold = body.text_or("hold", "");
  words.lowest_pressure = body.text_or("lowest_pressure", "");
  words.duration = body.text_or("duration", "");
  words.at = body.text_or("at", "");
  return told_answer(asked, desk::end_firing(asked.lab, words));
}

Answer interrupted(const Asked& asked) {
  const Body body("the body", asked.body, {"what", "at"});
  return answer_of(desk::interrupt_firing(asked.lab, asked.path.at("name"), body.text("what"), body.text_or("at", "")));
}

Answer called_off(const Asked& asked) {
  const Body body("the body", asked.body, {"reason"});
  return answer_of(desk::call_off_firing(asked.lab, asked.path.at("name"), body.text("reason")));
}

Answer step(const Asked& asked) {
  const Body body("the body", asked.body, {"name", "work", "pieces", "lots", "note", "at"});
  desk::StepWords words;
  words.name = body.text("name");
  words.work = body.text("work");
  words.pieces = body.texts("pieces");
  words.lots = body.texts("lots");
  words.note = body.text_or("note", "");
  words.at = body.text_or("at", "");
  return told_answer(asked, desk::record_step(asked.lab, words));
}

Answer keep_photo(const Asked& asked) {
  const Query query(asked.query, {"of"});
  return answer_of(desk::keep_photo(asked.lab, asked.path.at("name"), asked.raw, query.text_or("of", "")));
}

/// Under the type its bytes tell, whatever it was sent as.
Answer photo(const Asked& asked) {
  const Query query(asked.query, {});
  desk::PhotoSeen seen = desk::kept_photo(asked.lab, asked.path.at("hash"));
  Answer answer;
  answer.type = seen.kind == "JPEG"   ? "image/jpeg"
                : seen.kind == "PNG"  ? "image/png"
                : seen.kind == "WebP" ? "image/webp"
                : seen.kind == "HEIC" ? "image/heic"
                : seen.kind == "TIFF" ? "image/tiff"
                                      : "application/octet-stream";
  answer.body = std::move(seen.bytes);
  return answer;
}

}  // namespace

std::vector<Route> firing_work_routes() {
  return {
      {"POST", "/api/firings/{name}/start", "start_firing", Needs::fire, start},
      {"POST", "/api/firings/{name}/end", "end_firing", Needs::fire, end},
      {"POST", "/api/firings/{name}/interrupted", "interrupt_firing", Needs::fire, interrupted},
      {"POST", "/api/firings/{name}/called-off", "call_off_firing", Needs::fire, called_off},
      {"POST", "/api/firings/{name}/photos", "keep_photo", Needs::fire, keep_photo, Carries::bytes},
      {"GET", "/api/photos/{hash}", "photo", Needs::sign_in, photo},
      {"POST", "/api/bench-steps", "record_bench_step", Needs::fire, step},
  };
}

}  // namespace heatwork::server
