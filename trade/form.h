// The field table of a noun as a form: what may be filled in, in which order, and what each field takes. Like the schema and the format
// pages a visitor of the table the reader uses.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "trade/field.h"
#include "trade/noun.h"

namespace heatwork::trade {

/// A field, a group of fields, or a list of such groups.
struct FormField {
  enum class Shape { value, group, list };
  Shape shape = Shape::value;
  std::string key;   ///< "to"
  std::string path;  ///< from the noun on, without places in lists: "heating.to"
  std::string meaning;
  bool required = false;
  std::string default_text;  ///< as a file would say it; empty: none
  Role role = Role::decides;
  Noun refers_to = Noun::program;  ///< where the role is reference
  Nature nature;                   ///< of a value
  std::string unit;                ///< that a value is usually written in; empty: none
  std::vector<FormField> fields;   ///< of a group, or of each of a list
  std::size_t at_least = 0, at_most = 0;
  std::string one;      ///< what one of a list is called: "heating stage"
  std::string told_by;  ///< key that tells one of a list from the others; may be empty
};

/// In the order of the field table.
[[nodiscard]] std::vector<FormField> form_of(Noun noun);

}  // namespace heatwork::trade
