// Two texts of one kind of noun held against each other.
#pragma once

#include <memory>
#include <vector>

#include "desk/json_value.h"
#include "trade/difference.h"
#include "trade/noun.h"
#include "trade/place.h"

namespace heatwork::desk {

/// Errors: trade::Mistake where one cannot be read.
std::vector<trade::Difference> difference_of(trade::Noun noun, const std::shared_ptr<const trade::Source>& before,
                                             const std::shared_ptr<const trade::Source>& after);

/// A line each, `margin` blanks before it.
std::string as_lines(const std::vector<trade::Difference>& differences, std::size_t margin);
JsonList as_json(const std::vector<trade::Difference>& differences);

}  // namespace heatwork::desk
