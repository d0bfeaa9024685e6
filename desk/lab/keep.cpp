#include "desk/lab/keep.h"

#include "desk/lab/keeping_rules.h"

namespace heatwork::desk {

records::Store opened_to_keep(const StorePlace& place) {
  records::Opening opening = place.opening;
  opening.make = place.nobody_named_it;
  return records::Store::open(place.address, opening);
}

records::Kept keep(const StorePlace& place, records::Store& store, records::Change change) {
  check_keeping(store, asker_of(place, store), change.documents);
  change.who = place.opening.who;
  return store.keep(change);
}

}  // namespace heatwork::desk
