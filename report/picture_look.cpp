#include "report/picture_look.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace heatwork::report {
namespace {

/// Shades of one look. Pieces are told apart by dash first; their hues are muted and none stands for good or bad.
struct Shades {
  const char *paper, *panel, *ink, *soft, *rule, *grid, *wanted, *wanted_edge, *window;
  std::array<const char*, 4> piece;
};

constexpr Shades light = {"#ffffff", "#f6f6f4", "#1b1d20", "#50555c", "#8b9097",
                          "#e2e3e1", "#d5d9dc", "#6d747c", "#ececea", {"#22507f", "#7a3d63", "#3f5a4f", "#6a4a2f"}};
constexpr Shades dark = {"#16181b", "#1e2124", "#eceae6", "#b3b7bc", "#7d838a",
                         "#2c3034", "#3b4147", "#9aa1a9", "#24282c", {"#93bce6", "#dda6c8", "#a5c7b8", "#d9b592"}};

std::string shades_css(const Shades& shades) {
  std::string css = fmt::format(
      ".paper{{fill:{}}} .panel{{fill:{};stroke:{};stroke-width:1}} text{{fill:{}}} .soft{{fill:{}}} .rule{{stroke:{}}} .grid{{stroke:{}}} "
      ".wanted{{fill:{}}} .wanted-edge{{stroke:{}}} .window{{fill:{}}} .frame{{stroke:{}}} .guide,.leader{{stroke:{}}} "
      ".line{{stroke:{}}} .asked,.chamber{{stroke:{}}} .mark{{fill:{};stroke:{}}} .halo{{fill:{}}}\n",
      shades.paper, shades.panel, shades.grid, shades.ink, shades.soft, shades.rule, shades.grid, shades.wanted, shades.wanted_edge,
      shades.window, shades.rule, shades.soft, shades.ink, shades.soft, shades.paper, shades.ink, shades.paper);
  for (std::size_t i = 0; i < shades.piece.size(); ++i) {
    css += fmt::format(".p{0}{{stroke:{1}}} text.p{0}{{fill:{1};stroke:none}} .band.p{0}{{fill:{1}}} ", i, shades.piece[i]);
  }
  return css + "\n";
}

/// Type, dashes and widths, the same in light and dark.
std::string shapes_css() {
  std::string css = fmt::format(
      "text{{font-family:'DejaVu Sans',sans-serif;font-size:{}px}} .small{{font-size:{}px}} .headline{{font-size:{}px}} "
      ".title{{font-size:{}px;font-weight:bold}} "
      ".strong{{font-weight:bold}} ",
      text_px, small_text_px, headline_px, title_px);
  css +=
      ".line{fill:none;stroke-width:1.8;stroke-linejoin:round} .asked{stroke-width:1.3;stroke-dasharray:9 5} .display{stroke-width:2.4} "
      ".chamber{stroke-width:1.6;stroke-dasharray:9 3 2 3} .core{stroke-width:2;stroke-dasharray:2 3} "
      ".surface.p1,.surface.p3{stroke-dasharray:7 2.5} .core.p1,.core.p3{stroke-dasharray:5 2 1.5 2} "
      ".surface.p2,.surface.p3{stroke-width:2.6} "
      ".core.p2,.core.p3{stroke-width:2.8} .rule,.grid,.frame{stroke-width:1;fill:none} .wanted-edge{stroke-width:1;stroke-dasharray:1 "
      "3;fill:none} "
      ".guide{stroke-width:1;stroke-dasharray:1 4} .leader{stroke-width:1;fill:none} .mark{stroke-width:1.8} "
      ".band{stroke:none;opacity:0.22}\n";
  return css;
}

/// The rules of a sheet for what stands inside an element only: each selector with `inside` before it.
std::string rules_inside(const std::string& inside, const std::string& css) {
  std::string out;
  std::size_t at = 0;
  for (std::size_t open = css.find('{'); open != std::string::npos; open = css.find('{', at)) {
    const std::size_t close = css.find('}', open);
    std::size_t from = css.find_first_not_of(" \n", at);
    while (from < open) {
      const std::size_t comma = std::min(css.find(',', from), open);
      out += inside + ' ' + css.substr(from, comma - from);
      if (comma < open) out += ',';
      from = comma + 1;
    }
    out += css.substr(open, close + 1 - open) + '\n';
    at = close + 1;
  }
  return out;
}

}  // namespace

std::string picture_css(Shade shade) {
  std::string css = shapes_css();
  css += shades_css(shade == Shade::dark ? dark : light);
  if (shade == Shade::as_asked) css += "@media (prefers-color-scheme: dark){" + shades_css(dark) + "}\n";
  return css;
}

std::string picture_style() {
  const std::string picture = ".firing-picture";
  return rules_inside(picture, shapes_css()) + rules_inside(picture, shades_css(light)) + "@media (prefers-color-scheme: dark){\n" +
         rules_inside(":root:not([data-theme=\"light\"]) " + picture, shades_css(dark)) + "}\n" +
         rules_inside("[data-theme=\"dark\"] " + picture, shades_css(dark)) + "@media print{\n" +
         rules_inside(":root " + picture, shades_css(light)) + "}\n";
}

}  // namespace heatwork::report
