#include "desk/lab/pages.h"

#include <fmt/format.h>

#include <algorithm>

#include "records/store.h"

namespace heatwork::desk {

std::int64_t pages_of(std::int64_t count) {
  return std::max<std::int64_t>(1, (count + records::rows_a_page - 1) / records::rows_a_page);
}

std::string page_in_words(std::int64_t count, int page, std::string_view order) {
  const std::int64_t pages = pages_of(count);
  if (page > pages) return fmt::format("{}; page {} is beyond the last, which is {}", count, page, pages);
  const std::string rows = order.empty() ? std::to_string(count) : fmt::format("{}, {}", count, order);
  return pages == 1 ? rows : fmt::format("{}; page {} of {}", rows, page, pages);
}

}  // namespace heatwork::desk
