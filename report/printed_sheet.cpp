#include "report/printed_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/picture_look.h"
#include "report/svg.h"
#include "report/text_width.h"

namespace heatwork::report {
namespace {

constexpr double margin = 57;  // 15 mm
constexpr double line_px = 17, small_line_px = 15, row_gap_px = 7, between_px = 14, cell_gap_px = 10;

/// Lines put one under another, and a new page where they do not fit.
class Pen {
 public:
  Pen(double width, double height, double foot) : width_(width), bottom_(height - margin - foot) { new_page(); }

  [[nodiscard]] double room() const { return width_ - 2 * margin; }
  [[nodiscard]] double y() const { return y_; }
  [[nodiscard]] Svg& svg() { return pages_.back(); }
  [[nodiscard]] std::vector<Svg>& pages() { return pages_; }
  /// Whether a new page was begun, as that much no longer fitted.
  bool need(double height) {
    if (y_ + height <= bottom_) return false;
    new_page();
    return true;
  }
  void down(double height) { y_ += height; }
  void text(double x, const std::string& words, std::string_view css) { svg().text({margin + x, y_}, words, css); }

  /// Lines of a paragraph; each may begin a page.
  void paragraph(const std::string& words, double size_px, double line, std::string_view css, bool bold = false) {
    for (const std::string& each : broken_into_lines(words, size_px, room(), bold)) {
      need(line);
      down(line);
      text(0, each, css);
    }
  }

 private:
  void new_page() {
    pages_.emplace_back();
    y_ = margin;
  }
  std::vector<Svg> pages_;
  double width_, bottom_, y_ = 0;
};

void draw_title(Pen& pen, const PrintedSheet& sheet) {
  pen.paragraph(sheet.title, title_px, 26, "title", true);
  pen.paragraph(sheet.subtitle, text_px, line_px, "soft");
  if (sheet.tag.empty()) return;
  const auto lines = broken_into_lines(sheet.tag, title_px, pen.room() - 32, true);
  const double height = 26 * static_cast<double>(lines.size()) + 22;
  pen.down(between_px);
  pen.svg().path({{margin, pen.y()}, {margin + pen.room(), pen.y()}, {margin + pen.room(), pen.y() + height}, {margin, pen.y() + height}},
                 "tag", true);
  for (const std::string& line : lines) {
    pen.down(28);
    pen.text(16, line, "title");
  }
  pen.down(height - 28 * static_cast<double>(lines.size()));
}

/// The left edge of each column, and the right edge of the last.
std::vector<double> edges_of(const SheetTable& table, double room) {
  double all = 0;
  for (const SheetColumn& column : table.columns) all += column.share;
  std::vector<double> edges{0};
  for (const SheetColumn& column : table.columns) edges.push_back(edges.back() + room * column.share / all);
  return edges;
}

void draw_head(Pen& pen, const SheetTable& table, const std::vector<double>& edges) {
  pen.down(line_px);
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    pen.text(edges[i], cut_to_width(table.columns[i].head, small_text_px, edges[i + 1] - edges[i] - cell_gap_px, true), "small strong");
  pen.down(6);
  pen.svg().line({margin, pen.y()}, {margin + pen.room(), pen.y()}, "frame");
}

void draw_table(Pen& pen, const SheetTable& table) {
  const auto edges = edges_of(table, pen.room());
  pen.need(3 * line_px);
  draw_head(pen, table, edges);
  for (const std::vector<std::string>& row : table.rows) {
    std::vector<std::vector<std::string>> cells;
    std::size_t tallest = 1;
    for (std::size_t i = 0; i < table.columns.size() && i < row.size(); ++i) {
      cells.push_back(broken_into_lines(row[i], small_text_px, edges[i + 1] - edges[i] - cell_gap_px));
      tallest = std::max(tallest, cells.back().size());
    }
    const double height = small_line_px * static_cast<double>(tallest) + row_gap_px;
    if (pen.need(height)) draw_head(pen, table, edges);
    const double top = pen.y();
    for (std::size_t i = 0; i < cells.size(); ++i)
      for (std::size_t k = 0; k < cells[i].size(); ++k)
        pen.svg().text({margin + edges[i], top + small_line_px * static_cast<double>(k + 1)},
                       cut_to_width(cells[i][k], small_text_px, edges[i + 1] - edges[i] - 3), "small");
    pen.down(height);
    pen.svg().line({margin, pen.y()}, {margin + pen.room(), pen.y()}, "grid");
  }
}

void draw_block(Pen& pen, const SheetBlock& block) {
  pen.need(between_px + 4 * line_px);  // a heading never stands alone at a page's end
  pen.down(between_px);
  if (!block.heading.empty()) pen.paragraph(block.heading, headline_px, 22, "headline strong", true);
  for (const std::string& words : block.paragraphs) {
    pen.paragraph(words, text_px, line_px, "");
    pen.down(3);
  }
  if (!block.table.columns.empty()) draw_table(pen, block.table);
}

void draw_lines_to_sign(Pen& pen, const std::vector<std::string>& lines) {
  for (const std::string& line : lines) {
    pen.need(48);
    pen.down(48);
    pen.svg().line({margin, pen.y() - 14}, {margin + pen.room() * 0.62, pen.y() - 14}, "frame");
    pen.text(0, line, "small soft");
  }
}

/// The disclaimer, and which page of how many this is.
void draw_foot(Svg& svg, const std::vector<std::string>& lines, const std::string& title, const std::string& page, double width,
               double height) {
  double y = height - margin - small_line_px * static_cast<double>(lines.size()) - 4;
  svg.line({margin, y}, {width - margin, y}, "grid");
  for (const std::string& line : lines) svg.text({margin, y += small_line_px}, line, "small soft");
  y += small_line_px + 3;
  svg.text({margin, y}, cut_to_width(title, small_text_px, width - 2 * margin - 120), "small soft");
  svg.text({width - margin, y}, page, "small soft", "end");
}

std::string whole_page(const std::string& body, const std::string& title, double width, double height) {
  Svg svg;
  const std::string w = coordinate(width), h = coordinate(height);
  svg.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"},
                   {"viewBox", "0 0 " + w + " " + h},
                   {"width", w},
                   {"height", h},
                   {"class", "firing-picture"}});
  svg.words("title", title);
  svg.raw("<style>\n" + picture_css(Shade::light) + ".tag{fill:none;stroke:#1b1d20;stroke-width:3}\n</style>\n");
  svg.rectangle(0, 0, width, height, "paper");
  svg.raw(body);
  svg.close("svg");
  return svg.str();
}

}  // namespace

std::vector<std::string> sheet_pages(const PrintedSheet& sheet, Paper paper, const Numbers& numbers) {
  const PaperSize size = size_of(paper);
  const double width = std::round(size.across_pt * 96 / 72), height = std::round(size.down_pt * 96 / 72);
  const auto disclaimer = broken_into_lines(numbers.say("safety.disclaimer"), small_text_px, width - 2 * margin);
  Pen pen(width, height, small_line_px * static_cast<double>(disclaimer.size() + 1) + 12);
  draw_title(pen, sheet);
  for (const SheetBlock& block : sheet.blocks) draw_block(pen, block);
  draw_lines_to_sign(pen, sheet.to_sign);
  std::vector<std::string> out;
  const std::string count = fmt::format("{}", pen.pages().size());
  for (Svg& page : pen.pages()) {
    draw_foot(page, disclaimer, sheet.title, numbers.say("sheet.page", {{"number", fmt::format("{}", out.size() + 1)}, {"count", count}}),
              width, height);
    out.push_back(whole_page(page.str(), sheet.title, width, height));
  }
  return out;
}

}  // namespace heatwork::report
