// The form of a kind of file: what may be filled in, said in the reader's language and units.
#pragma once

#include "desk/lab/store_care.h"
#include "report/number.h"
#include "trade/noun.h"
#include "trade/words.h"

namespace heatwork::desk {

/// As JSON: format, kind, label, fields; each field with key, label, meaning, type, kind, kind_words, unit, example, range, required,
/// default, choices, refers_to, for_people, fields, at_least, at_most, one, told_by. Keys, kinds and values of choices are the same in
/// every language. A word the catalogue lacks is said by the field table, in English.
CareAnswer form_for(trade::Noun noun, trade::Language language, report::TemperatureScale units);

}  // namespace heatwork::desk
