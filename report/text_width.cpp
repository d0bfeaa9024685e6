#include "report/text_width.h"

#include <algorithm>
#include <array>

namespace heatwork::report {
namespace {

// Advance widths of the signs from space to tilde, in thousandths of the size, as the font files of DejaVu 2.37 state them.
constexpr std::array<int, 95> regular = {318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361,  318, 337, 636, 636, 636,
                                         636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 531, 1000, 684, 686, 698, 770, 632,
                                         575, 775, 752, 295, 295, 656, 557, 863, 748, 787, 603, 787, 695, 635,  611, 732, 684, 989, 685,
                                         611, 685, 390, 337, 390, 838, 500, 500, 613, 635, 550, 635, 615, 352,  635, 634, 278, 278, 579,
                                         278, 974, 634, 612, 635, 635, 411, 521, 392, 634, 592, 818, 592, 592,  525, 636, 337, 636, 838};
constexpr std::array<int, 95> bold_face = {
    348, 456, 521, 838, 696, 1002, 872, 306,  457,  457, 523, 838, 380, 415, 380, 365, 696, 696, 696, 696, 696, 696, 696, 696,
    696, 696, 400, 400, 838, 838,  838, 580,  1000, 774, 762, 734, 830, 683, 683, 821, 837, 372, 372, 775, 637, 995, 837, 850,
    733, 850, 770, 720, 682, 812,  774, 1103, 771,  724, 725, 457, 365, 457, 838, 500, 500, 675, 716, 593, 716, 678, 435, 716,
    712, 343, 343, 665, 343, 1042, 712, 687,  716,  716, 493, 595, 478, 712, 652, 924, 645, 652, 582, 712, 365, 712, 838};

/// Length in bytes of the UTF-8 sign that begins here; a stray byte counts as one.
std::size_t sign_length(unsigned char first) {
  if (first >= 0xF0) return 4;
  if (first >= 0xE0) return 3;
  return first >= 0xC0 ? 2 : 1;
}

template <class Width>
std::vector<std::string> broken(std::string_view text, double limit, const Width& width) {
  std::vector<std::string> lines;
  std::string line;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string word(text.substr(at, end - at));
    const std::string longer = line.empty() ? word : line + " " + word;
    if (!line.empty() && width(longer) > limit) {
      lines.push_back(line);
      line = word;
    } else {
      line = longer;
    }
    at = end + 1;
  }
  if (!line.empty()) lines.push_back(line);
  return lines;
}

}  // namespace

double text_width(std::string_view text, double size_px, bool bold) {
  double thousandths = 0;
  for (std::size_t at = 0; at < text.size();) {
    const auto first = static_cast<unsigned char>(text[at]);
    const bool known = first >= 0x20 && first < 0x7F;
    thousandths += known ? (bold ? bold_face : regular)[first - 0x20U] : 660;
    at += sign_length(first);
  }
  return thousandths * size_px / 1000.0;
}

std::vector<std::string> broken_into_lines(std::string_view text, double size_px, double width_px, bool bold) {
  return broken(text, width_px, [&](const std::string& line) { return text_width(line, size_px, bold); });
}

std::string cut_to_width(std::string_view text, double size_px, double width_px, bool bold) {
  if (text_width(text, size_px, bold) <= width_px) return std::string(text);
  std::string kept;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = sign_length(static_cast<unsigned char>(text[at]));
    const std::string longer = kept + std::string(text.substr(at, length));
    if (text_width(longer + "…", size_px, bold) > width_px) break;
    kept = longer;
    at += length;
  }
  while (!kept.empty() && kept.back() == ' ') kept.pop_back();
  return kept + "…";
}

std::size_t signs(std::string_view text) {
  std::size_t count = 0;
  for (const char letter : text) count += (static_cast<unsigned char>(letter) & 0xC0U) != 0x80U ? 1 : 0;
  return count;
}

std::string cut_to_columns(std::string_view text, std::size_t columns) {
  if (signs(text) <= columns) return std::string(text);
  std::string kept;
  for (std::size_t at = 0, count = 0; at < text.size() && count + 1 < columns; ++count) {
    const std::size_t length = sign_length(static_cast<unsigned char>(text[at]));
    kept += text.substr(at, length);
    at += length;
  }
  return kept + "…";
}

std::vector<std::string> broken_into_columns(std::string_view text, std::size_t columns) {
  return broken(text, static_cast<double>(columns), [](const std::string& line) { return static_cast<double>(signs(line)); });
}

}  // namespace heatwork::report
