#include "desk/lab/which_store.h"

#include "desk/lab/store_place.h"

namespace heatwork::desk {

std::string which_store(const AskedLab& asked) {
  return place_of(asked).address.shown();
}

}  // namespace heatwork::desk
