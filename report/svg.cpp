#include "report/svg.h"

#include <fmt/format.h>

#include <cmath>

#include "report/thinned.h"

namespace heatwork::report {

std::string escaped(std::string_view text) {
  std::string safe;
  safe.reserve(text.size());
  for (const char letter : text) {
    switch (letter) {
      case '&':
        safe += "&amp;";
        break;
      case '<':
        safe += "&lt;";
        break;
      case '>':
        safe += "&gt;";
        break;
      case '"':
        safe += "&quot;";
        break;
      case '\'':
        safe += "&apos;";
        break;
      default:
        if (static_cast<unsigned char>(letter) >= 0x20) safe += letter;
        if (letter == '\n' || letter == '\t') safe += ' ';
    }
  }
  return safe;
}

std::string coordinate(double value) {
  const double tenth = std::round(value * 10.0) / 10.0 + 0.0;
  return fmt::format("{}", tenth);
}

void Svg::attributes(Attributes attributes) {
  for (const auto& [name, value] : attributes) out_ += fmt::format(" {}=\"{}\"", name, escaped(value));
}

void Svg::open(std::string_view element, Attributes given) {
  out_ += fmt::format("<{}", element);
  attributes(given);
  out_ += ">\n";
}

void Svg::close(std::string_view element) {
  out_ += fmt::format("</{}>\n", element);
}

void Svg::line(Point from, Point to, std::string_view css) {
  out_ += fmt::format("<line class=\"{}\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>\n", css, coordinate(from.x), coordinate(from.y),
                      coordinate(to.x), coordinate(to.y));
}

void Svg::rectangle(double x, double y, double width, double height, std::string_view css) {
  out_ += fmt::format("<rect class=\"{}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n", css, coordinate(x), coordinate(y),
                      coordinate(width), coordinate(height));
}

void Svg::circle(Point centre, double radius, std::string_view css) {
  out_ += fmt::format("<circle class=\"{}\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n", css, coordinate(centre.x), coordinate(centre.y),
                      coordinate(radius));
}

void Svg::path(const std::vector<Point>& points, std::string_view css, bool closed) {
  if (points.empty()) return;
  const std::vector<Point> drawn = thinned(points);
  out_ += fmt::format("<path class=\"{}\" d=\"M{} {}", css, coordinate(drawn.front().x), coordinate(drawn.front().y));
  for (std::size_t i = 1; i < drawn.size(); ++i) out_ += fmt::format("L{} {}", coordinate(drawn[i].x), coordinate(drawn[i].y));
  out_ += closed ? "Z\"/>\n" : "\"/>\n";
}

void Svg::text(Point at, std::string_view words, std::string_view css, std::string_view anchor) {
  out_ += fmt::format("<text class=\"{}\" x=\"{}\" y=\"{}\"", css, coordinate(at.x), coordinate(at.y));
  if (anchor != "start") out_ += fmt::format(" text-anchor=\"{}\"", anchor);
  out_ += ">" + escaped(words) + "</text>\n";
}

void Svg::words(std::string_view element, std::string_view text, Attributes given) {
  out_ += fmt::format("<{}", element);
  attributes(given);
  out_ += ">" + escaped(text) + fmt::format("</{}>\n", element);
}

}  // namespace heatwork::report
