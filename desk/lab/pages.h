// Answers of many rows come in pages.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace heatwork::desk {

/// How many pages so many rows fill; one where there is none.
std::int64_t pages_of(std::int64_t count);

/// "3, ORDER", with which page of how many; or that this page lies beyond the last. Order: "" or how the rows stand.
std::string page_in_words(std::int64_t count, int page, std::string_view order = {});

}  // namespace heatwork::desk
