#include "server/description.h"

#include <algorithm>
#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

#include "desk/version.h"

/// The table and all fragments, laid in by cmake/description.cmake: the number of fragments, then two offsets and lengths a fragment.
extern "C" const std::uint64_t heatwork_description[];

namespace heatwork::server {
namespace {

/// Objects member by member; two that say the same thing contradict each other.
desk::Json joined(const desk::Json& one, const desk::Json& other, const std::string& where) {
  if (one.object() == nullptr || other.object() == nullptr) throw std::logic_error("the description says " + where + " twice");
  desk::JsonObject all = *one.object();
  for (const desk::JsonMember& member : *other.object()) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const desk::JsonMember& each) { return each.key == member.key; });
    if (found == all.end())
      all.push_back(member);
    else
      found->value = joined(found->value, member.value, where + "/" + member.key);
  }
  return all;
}

desk::Json whole() {
  const char* start = reinterpret_cast<const char*>(heatwork_description);
  desk::Json all{desk::JsonObject{}};
  const std::uint64_t* row = heatwork_description + 1;
  for (std::uint64_t i = 0; i < heatwork_description[0]; ++i, row += 4)
    all = joined(all, desk::read_json({start + row[0], row[1]}, {start + row[2], row[3]}), "");
  return joined(all, desk::JsonObject{{"info", desk::JsonObject{{"version", desk::program_version()}}}}, "");
}

}  // namespace

const desk::Json& description() {
  static const desk::Json all = whole();
  return all;
}

}  // namespace heatwork::server
