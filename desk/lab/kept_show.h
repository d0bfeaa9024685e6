// What a lab keeps, looked at: shown, listed, its history, the difference of two versions in words.
#pragma once

#include <string>

#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"
#include "trade/noun.h"

namespace heatwork::desk {

// Errors of all: Failure, trade::Mistake, records::StoreError.

/// The file of NAME or NAME@VERSION as it is kept, and who kept it, when and why.
CareAnswer show_kept(const AskedLab& asked, trade::Noun noun, const std::string& name);

struct ListWords {
  std::string word;   ///< sought in name, label and what else it is found by; empty: all
  std::string state;  ///< "open", "in use" ...; empty: any
  int page = 1;
  bool more = false;  ///< in JSON what a list of that kind needs beside: desk/lab/list_columns.h
};
CareAnswer list_kept(const AskedLab& asked, trade::Noun noun, const ListWords& words);

/// Every version: when, who, why, and what changed, in words.
CareAnswer history_of_kept(const AskedLab& asked, trade::Noun noun, const std::string& name);

/// Each of the two is NAME, NAME@VERSION, or a FILE that ends in .toml.
CareAnswer difference_of_kept(const AskedLab& asked, trade::Noun noun, const std::string& before, const std::string& after);

}  // namespace heatwork::desk
