#include "desk/lab/today.h"
#include "desk/lab/told_in.h"
#include "server/body.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

Answer today(const Asked& asked) {
  const Query query(asked.query, {"within"});
  desk::TodayWords words;
  words.within = query.text_or("within", words.within);
  return answer_of(desk::told_in(asked.language, desk::today_in_lab(asked.lab, words).json));
}

}  // namespace

std::vector<Route> today_routes() {
  return {{"GET", "/api/today", "today", Needs::sign_in, today}};
}

}  // namespace heatwork::server
