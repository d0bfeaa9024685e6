#include <algorithm>

#include "desk/errors.h"
#include "report/firing_picture.h"
#include "server/body.h"
#include "server/routes/routes.h"
#include "trade/words.h"
#include "verdict/explanation.h"

namespace heatwork::server {
namespace {

verdict::Aspect aspect_of(const std::string& asked) {
  std::string plain = asked;
  std::replace_if(
      plain.begin(), plain.end(), [](char letter) { return letter == '-' || letter == '_'; }, ' ');
  for (int i = 0; i <= static_cast<int>(verdict::Aspect::refiring); ++i)
    if (verdict::word(static_cast<verdict::Aspect>(i)) == plain) return static_cast<verdict::Aspect>(i);
  throw desk::Failure(desk::ErrorWord::unknown_name, "No finding has this aspect; the aspects stand in docs/formats/rehearsal-json.md.");
}

/// What an aspect of a finding means, in the language asked for.
Answer help(const Asked& asked) {
  const Query query(asked.query, {});
  const verdict::Aspect aspect = aspect_of(asked.path.at("aspect"));
  const trade::Words& words = trade::words_of(asked.language);
  const verdict::Explanation explained = verdict::explanation_of(aspect);
  return answer_of(desk::JsonObject{{"format", 1},
                                    {"aspect", verdict::word(aspect)},
                                    {"title", words.say(verdict::word_key(aspect))},
                                    {"meaning", words.say(verdict::help_key_of(aspect))},
                                    {"page", explained.page},
                                    {"equation", desk::text_or_null(explained.equation)},
                                    {"source", desk::text_or_null(explained.source)}});
}

/// The style sheet of pictures that bring none of their own.
Answer picture_style(const Asked&) {
  return {200, "text/css; charset=utf-8", report::picture_style(), {}, {}};
}

}  // namespace

std::vector<Route> help_routes() {
  return {{"GET", "/api/help/{aspect}", "help", Needs::sign_in, help},
          {"GET", "/api/picture-style", "picture_style", Needs::sign_in, picture_style}};
}

}  // namespace heatwork::server
