// The kind of document a path names, and what stands beside the sentence where a write of one is refused.
#pragma once

#include <exception>
#include <functional>

#include "server/route.h"
#include "trade/noun.h"

namespace heatwork::server {

/// Of "{kind}" in the path. Errors: Failure unknown_name with the near miss.
trade::Noun kind_of(const Asked& asked);

/// Does a write. Beside the sentence of a mistake in the values stands what `mistakes` tells, key by key (nullptr: the one that was met).
Answer refused_with_more(const std::function<Answer()>& write, const std::function<desk::CareAnswer()>& mistakes);

}  // namespace heatwork::server
