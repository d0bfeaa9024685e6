// Values given by the name of a piece, "crown-16=as wanted", as words of a request.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace heatwork::desk {

/// By name, each once, each one of `allowed`. `option`: how sentences call it, "--piece". Errors: Failure bad_value.
std::map<std::string, std::string> named_values(std::string_view option, const std::vector<std::string>& words,
                                                const std::vector<std::string>& allowed);

}  // namespace heatwork::desk
