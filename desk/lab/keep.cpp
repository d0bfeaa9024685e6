#include "desk/lab/keep.h"

#include <algorithm>
#include <utility>

#include "desk/lab/keeping_rules.h"

namespace heatwork::desk {

records::Store opened_to_keep(const StorePlace& place) {
  records::Opening opening = place.opening;
  opening.make = place.nobody_named_it;
  return records::Store::open(place.address, opening);
}

records::Kept keep(const StorePlace& place, records::Store& store, records::Change change) {
  change.who = place.opening.who;
  // Under the writers' lock, so that a lock or a role that another program keeps in the same instant is seen. The rules look at the
  // change as it is kept: it is asked only while `store.keep` runs.
  const auto rule_of_the_work = std::move(change.allow);
  change.allow = [&](records::Store& standing) {
    check_keeping(standing, asker_of(place, standing), change);
    if (rule_of_the_work) rule_of_the_work(standing);
  };
  try {
    return store.keep(change);
  } catch (const records::Conflict& conflict) {
    const records::Document& stands = conflict.stands();
    const auto made = std::find_if(change.documents.begin(), change.documents.end(),
                                   [&](const auto& version) { return version.kind == stands.kind && version.id == stands.id; });
    const int from = made == change.documents.end() ? 0 : made->after;
    throw ChangedMeanwhile({stands.kind, stands.id, from, stands.version}, conflict.what());
  }
}

}  // namespace heatwork::desk
