#include <atomic>
#include <exception>
#include <memory>

#include "desk/errors.h"
#include "desk/lab/export_place.h"
#include "desk/lab/store_care.h"
#include "desk/lab/told_in.h"
#include "server/answer.h"
#include "server/body.h"
#include "server/jobs.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

constexpr int most_listeners = 64;
constexpr std::chrono::milliseconds look_again{200};

desk::Json as_json(const JobSeen& job, Language language) {
  desk::JsonObject json{{"format", 1},
                        {"id", job.id},
                        {"work", job.work},
                        {"state", word(job.state)},
                        {"done", static_cast<double>(job.done)},
                        {"all", static_cast<double>(job.all)}};
  const bool done = job.state == JobState::done;
  json.push_back({"answer", done ? job.answer.json : desk::Json()});
  json.push_back({"wrong", done && job.answer.wrong});
  json.push_back({"error", job.error.empty() ? desk::Json() : desk::Json(job.error)});
  json.push_back({"sentence", job.sentence.empty() ? desk::Json() : desk::Json(job.sentence)});
  return desk::told_in(language, desk::Json(std::move(json)));
}

/// JSON on one line, as an event carries it.
std::string one_line(const desk::Json& json) {
  std::string text = desk::write_json(json);
  std::erase(text, '\n');
  return text;
}

Jobs::Work work_of(const std::string& work, const desk::AskedLab& lab) {
  if (work == "export")
    return [lab, file = desk::place_for_export(lab)](const desk::CareWatch& watch) { return desk::export_store(lab, file, watch); };
  if (work == "verify") return [lab](const desk::CareWatch& watch) { return desk::verify_store(lab, "", watch); };
  return [lab](const desk::CareWatch& watch) { return desk::back_up_store(lab, {}, watch); };
}

/// The jobs of this server, and how many listen to them.
struct Shop {
  Jobs jobs;
  std::atomic<int> listeners{0};
};

/// Tells a listener of a job until it is over.
void tell(const std::shared_ptr<Shop>& shop, const std::string& id, const std::string& person, Language language, OpenLine& line) {
  std::int64_t told = -1;
  while (line.open()) {
    JobSeen job;
    try {
      job = shop->jobs.seen(id, person);
    } catch (const desk::Failure&) {
      line.send("failed", one_line(desk::read_json("the answer", answer_of(std::current_exception(), language).body)));
      return;
    }
    if (job.state != JobState::running) {
      line.send(word(job.state), one_line(as_json(job, language)));
      return;
    }
    if (job.done != told && !line.send("progress", one_line(as_json(job, language)))) return;
    told = job.done;
    if (!line.wait(look_again)) return;
  }
}

}  // namespace

std::vector<Route> job_routes() {
  const auto shop = std::make_shared<Shop>();
  const auto begin = [shop](const Asked& asked) {
    const Body body("the body", asked.body, {"work"});
    const std::string work = body.word("work", {"verify", "back up", "export"});
    const std::string id = shop->jobs.begin(work, asked.lab.person, work_of(work, asked.lab));
    return answer_of(desk::JsonObject{{"format", 1}, {"id", id}}, 202);
  };
  const auto show = [shop](const Asked& asked) {
    const Query query(asked.query, {});
    return answer_of(as_json(shop->jobs.seen(asked.path.at("id"), asked.lab.person), asked.language));
  };
  const auto listen = [shop](const Asked& asked) {
    const Query query(asked.query, {});
    const std::string id = asked.path.at("id"), person = asked.lab.person;
    (void)shop->jobs.seen(id, person);
    if (shop->listeners.load() >= most_listeners)
      throw desk::Failure(desk::ErrorWord::busy, "Too many listen to long work already; ask for it from time to time instead.");
    Answer answer;
    answer.events = [shop, id, person, language = asked.language](OpenLine& line) {
      ++shop->listeners;
      tell(shop, id, person, language, line);
      --shop->listeners;
    };
    return answer;
  };
  const auto cancel = [shop](const Asked& asked) {
    shop->jobs.cancel(asked.path.at("id"), asked.lab.person);
    return answer_of(desk::JsonObject{{"format", 1}, {"id", asked.path.at("id")}});
  };
  return {{"POST", "/api/jobs", "begin_job", Needs::sign_in, begin},
          {"GET", "/api/jobs/{id}", "show_job", Needs::sign_in, show},
          {"GET", "/api/jobs/{id}/events", "job_events", Needs::sign_in, listen},
          {"DELETE", "/api/jobs/{id}", "cancel_job", Needs::sign_in, cancel}};
}

}  // namespace heatwork::server
