#include "metrology/colour_difference.h"

#include <array>
#include <stdexcept>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"

namespace heatwork::desk {
namespace {

constexpr std::array<std::string_view, 2> formula_words = {"CIEDE2000", "CIE76"};

constexpr Field colour_key(std::string_view name) {
  return {.name = name,
          .meaning = "L (0 to 100), a and b of a colour, in this order",
          .at_least = -200,
          .at_most = 200,
          .shape = Shape::numbers,
          .fewest = 3,
          .most = 3};
}
constexpr std::array<Field, 3> difference_inputs = {{
    colour_key("first"),
    colour_key("second"),
    {.name = "formula", .meaning = "by which the difference is told", .shape = Shape::word, .words = formula_words},
}};
constexpr std::array<Field, 1> difference_outputs = {answer_key("difference", "how far apart the two look", "")};

metrology::Lab colour(const Inputs& in, std::string_view key) {
  const std::vector<double> values = in.numbers(key);
  return {values[0], values[1], values[2]};
}

Json answer_difference(const Inputs& in) {
  const metrology::Lab first = colour(in, "first"), second = colour(in, "second");
  return JsonObject{{"difference", in.word("formula") == formula_words[0] ? metrology::colour_difference_2000(first, second)
                                                                          : metrology::colour_difference_1976(first, second)}};
}

}  // namespace

constinit const Calculation colour_difference_calculation = {
    .name = "colour-difference",
    .purpose = "how far apart two colours look",
    .equation = "CIEDE2000 with all parametric factors 1, or CIE76, the distance in L, a, b.",
    .source = "Sharma, Wu and Dalal 2005; CIE 15",
    .inputs = difference_inputs,
    .outputs = difference_outputs,
    .exactly_one_of = {},
    .answer = answer_difference};

}  // namespace heatwork::desk
