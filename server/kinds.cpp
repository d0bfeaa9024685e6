#include "server/kinds.h"

#include "desk/errors.h"
#include "desk/lab/kept_change.h"
#include "desk/schema.h"
#include "server/answer.h"
#include "trade/mistake.h"

namespace heatwork::server {

trade::Noun kind_of(const Asked& asked) {
  return desk::noun_named(asked.path.at("kind"));
}

Answer refused_with_more(const std::function<Answer()>& write, const std::function<desk::CareAnswer()>& mistakes) {
  try {
    return write();
  } catch (const desk::ChangedMeanwhile& meanwhile) {
    const auto& [kind, name, from, newest] = meanwhile.versions();
    throw FailureWith(meanwhile.error(), meanwhile.what(), {{"kind", kind}, {"name", name}, {"from", from}, {"newest", newest}});
  } catch (const trade::Mistake& mistake) {
    const desk::CareAnswer checked = mistakes();
    throw FailureWith(desk::ErrorWord::bad_file, mistake.what(), {{"mistakes", *checked.json.find("mistakes")}});
  }
}

}  // namespace heatwork::server
