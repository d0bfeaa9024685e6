// A report for paper: headings, paragraphs and tables on as many pages as they need, each with its foot and the disclaimer. SVG, PDF.
#pragma once

#include <string>
#include <vector>

#include "report/number.h"
#include "report/raster.h"

namespace heatwork::report {

struct SheetColumn {
  std::string head;
  double share = 1;  ///< of the width, against the other columns
};

struct SheetTable {
  std::vector<SheetColumn> columns;
  std::vector<std::vector<std::string>> rows;  ///< a text a column; long ones take several lines
};

struct SheetBlock {
  std::string heading;  ///< may be empty
  std::vector<std::string> paragraphs;
  SheetTable table;  ///< no columns: none
};

struct PrintedSheet {
  std::string title, subtitle;
  std::string tag;  ///< said large in a frame under the title; empty: nothing
  std::vector<SheetBlock> blocks;
  std::vector<std::string> to_sign;  ///< a line each to write on, at the end
};

/// One SVG a page, upright, black on white. The same sheet gives the same bytes.
std::vector<std::string> sheet_pages(const PrintedSheet& sheet, Paper paper, const Numbers& numbers);

}  // namespace heatwork::report
