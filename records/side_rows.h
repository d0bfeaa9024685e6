// The rows of all tables that tell of the same names, each table in order of name: of a whole store, or of one name.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <utility>

#include "records/inside.h"

namespace heatwork::records {

using Name = std::pair<std::string, std::string>;  ///< kind, id

struct SideRows {
  Rows<Document> documents;
  Rows<Entry> entries;
  Rows<HeadRow> heads;
  Rows<IndexUse> uses;
  Rows<IndexDue> dues;
  Rows<PersonalRow> personals;
  Rows<PhotoRow> photos;
};

/// Inside a view, as all of these.
SideRows all_rows(Store::Inside& inside);
SideRows rows_of(Store::Inside& inside, const Name& name);

/// Hands out every name any table has, table by table, some more than once. Reads keys alone.
void for_every_name(Store::Inside& inside, const std::function<void(const Name&)>& take);

}  // namespace heatwork::records
