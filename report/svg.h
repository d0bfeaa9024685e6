// Writes SVG: escaped text, coordinates to a tenth of a pixel, elements in the order they are asked for.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace heatwork::report {

struct Point {
  double x = 0, y = 0;
};

/// Text made safe inside an element or attribute; signs no XML may carry are left out.
std::string escaped(std::string_view text);

/// A coordinate to a tenth of a pixel without needless zeros. [px]
std::string coordinate(double value);

class Svg {
 public:
  using Attributes = std::initializer_list<std::pair<std::string_view, std::string_view>>;

  void open(std::string_view element, Attributes attributes = {});
  void close(std::string_view element);
  void line(Point from, Point to, std::string_view css);
  void rectangle(double x, double y, double width, double height, std::string_view css);
  void circle(Point centre, double radius, std::string_view css);
  /// A line through points; points that change nothing one could see are left out (report/thinned.h).
  void path(const std::vector<Point>& points, std::string_view css, bool closed = false);
  /// `anchor` is start, middle or end.
  void text(Point at, std::string_view words, std::string_view css, std::string_view anchor = "start");
  /// An element that holds nothing but text, such as title and desc.
  void words(std::string_view element, std::string_view words, Attributes attributes = {});
  /// Text that is already SVG.
  void raw(std::string_view svg) { out_ += svg; }
  [[nodiscard]] const std::string& str() const { return out_; }

 private:
  void attributes(Attributes attributes);
  std::string out_;
};

}  // namespace heatwork::report
