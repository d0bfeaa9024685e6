#include "desk/lab/furnace_check_give_up.h"

#include <fmt/format.h>

#include "desk/errors.h"
#include "desk/lab/keep.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/store_place.h"
#include "desk/lab/store_shelf.h"
#include "trade/check.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

trade::Check given_up(trade::Check check) {
  if (trade::is_finished(check))
    throw Failure(ErrorWord::conflict, fmt::format("Check {} is finished; there is nothing to give up.", check.name));
  check.finished.reset();
  check.good = false;
  check.cannot_tell.emplace().value = true;
  check.verdict = "given up";
  return check;
}

}  // namespace

CareAnswer give_up_check(const AskedLab& asked, const GiveUpWords& words) {
  if (words.reason.find_first_not_of(' ') == std::string::npos)
    throw Failure(ErrorWord::bad_value, "Say why the check is given up; the reason is kept with it.");
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    const records::Document document = newest_document(store, trade::Noun::check, words.check);
    const trade::Check check = given_up(read_kept<trade::Check>(kept_source(document)));
    records::NewVersion version;
    version.kind = document.kind;
    version.id = document.id;
    version.after = words.from > 0 ? words.from : document.version;
    version.body = trade::write_noun(check);
    version.action = "changed";
    version.reason = words.reason;
    records::Change change;
    change.documents = {std::move(version)};
    const records::Kept kept = keep(place, store, std::move(change));
    const int now = kept.documents.front().version;
    return CareAnswer{
        care_line("Given up", fmt::format("check {} of furnace {}, version {}", check.name, check.furnace.value, now)),
        JsonObject{{"format", 1}, {"check", check.name}, {"furnace", check.furnace.value}, {"version", now}, {"head", kept.head}}, false};
  });
}

}  // namespace heatwork::desk
