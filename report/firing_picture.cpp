#include "report/firing_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/answers.h"
#include "report/pane_drawing.h"
#include "report/picture_look.h"
#include "report/stress_readings.h"
#include "report/strip_drawing.h"
#include "report/strips.h"
#include "report/svg.h"
#include "report/text_width.h"

namespace heatwork::report {
namespace {

using firing::MomentKind;
using firing::Rehearsal;

std::string name_or_label(const std::string& label, const std::string& name) {
  return label.empty() ? name : label;
}

std::string title_of(const Rehearsal& rehearsal, const Numbers& numbers) {
  const trade::Firing& firing = rehearsal.request.firing;
  return name_or_label(firing.label, firing.name.empty() ? numbers.say("picture.unnamed") : firing.name);
}

std::string setting_of(const Rehearsal& rehearsal, const Numbers& numbers) {
  const trade::ResolvedFiring& request = rehearsal.request;
  const std::string setting =
      numbers.say("picture.setting", {{"program", request.program.name}, {"furnace", request.furnace.name}, {"tray", request.tray.name}});
  if (!request.instruction) return setting;
  return numbers.say("picture.by_instruction", {{"setting", setting}, {"instruction", request.instruction->name}});
}

std::string level_of(const verdict::Finding& finding, const Numbers& numbers) {
  return verdict::level_in_words(finding, numbers.words());
}

/// Everything the picture shows, in words, for who cannot see it.
std::string description(const Rehearsal& rehearsal, const std::vector<Answer>& answers, const std::vector<std::string>& names,
                        const verdict::Verdict& verdict, const Numbers& numbers) {
  std::string text = setting_of(rehearsal, numbers) + ".";
  if (!verdict.findings.empty()) {
    const verdict::Finding& first = verdict.findings.front();
    text += " " + numbers.say("picture.first_finding", {{"level", level_of(first, numbers)}, {"sentence", first.sentence}});
  }
  for (const Answer& answer : answers) {
    text += " " + answer.question;
    if (answer.question.back() != '?') text += ":";
    for (std::size_t i = 0; i < answer.by_piece.size(); ++i) text += (i ? "; " : " ") + names[i] + ": " + answer.by_piece[i];
    text += ".";
  }
  text += " " + numbers.say("picture.moments");
  for (std::size_t i = 0; i < rehearsal.moments.size(); ++i) {
    const firing::Moment& moment = rehearsal.moments[i];
    const std::string piece = moment.piece.empty() ? "" : moment.piece + " ";
    const std::string what = piece + mark_word(moment.what, numbers);
    text += (i ? ", " : " ") + numbers.say("picture.moment", {{"what", what}, {"time", numbers.duration(moment.at_s)}});
  }
  return text + ".";
}

double draw_head(Svg& svg, const Rehearsal& rehearsal, const verdict::Verdict& verdict, const StripFrame& frame) {
  const PictureColumns& columns = frame.columns;
  double y = columns.margin + 16;
  const double width = columns.width - 2 * columns.margin;
  const std::string setting = setting_of(rehearsal, *frame.numbers);
  const std::string title = cut_to_width(title_of(rehearsal, *frame.numbers), title_px, width, true);
  const double title_ends = columns.margin + text_width(title, title_px, true) + 20;
  svg.text({columns.margin, y}, title, "title");
  const bool beside = title_ends + text_width(setting, text_px) <= columns.key_right();
  if (!beside) y += 21;
  svg.text({beside ? columns.key_right() : columns.margin, y}, cut_to_width(setting, text_px, width), "soft", beside ? "end" : "start");
  y += 6;
  if (!verdict.findings.empty()) {
    const verdict::Finding& first = verdict.findings.front();
    const std::string level = level_of(first, *frame.numbers) + ": ";
    const auto lines = broken_into_lines(level + first.sentence, headline_px, width * 0.97);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      y += 21;
      const bool begins = i == 0 && lines[i].rfind(level, 0) == 0;
      svg.raw(fmt::format("<text class=\"headline\" xml:space=\"preserve\" x=\"{}\" y=\"{}\">{}{}</text>\n", coordinate(columns.margin),
                          coordinate(y), begins ? "<tspan class=\"strong\">" + escaped(level) + "</tspan>" : "",
                          escaped(begins ? lines[i].substr(level.size()) : lines[i])));
    }
    y += 8;
  }
  return y + 6;
}

/// A table: a question a row, a piece a column.
double draw_answers(Svg& svg, const std::vector<Answer>& answers, const std::vector<std::string>& names,
                    const std::vector<trade::Piece>& pieces, const PictureColumns& columns, double top) {
  const double first = columns.margin + 206;
  const double width = (columns.key_right() - first) / static_cast<double>(std::max<std::size_t>(1, names.size()));
  svg.line({columns.margin, top}, {columns.key_right(), top}, "rule");
  double y = top + 17;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const double left = first + width * static_cast<double>(i);
    svg.path({{left, y - 4}, {left + 34, y - 4}}, fmt::format("line surface p{}", i));
    const std::string name = cut_to_width(names[i], text_px, width - 56, true);
    svg.text({left + 42, y}, name, "strong");
    const double taken = 42 + text_width(name, text_px, true) + 8;
    if (i < pieces.size() && taken + 60 < width)
      svg.text({left + taken, y}, cut_to_width(pieces[i].label, text_px, width - taken - 14), "soft");
  }
  for (const Answer& answer : answers) {
    y += 4;
    std::size_t tallest = 1;
    for (std::size_t i = 0; i < names.size(); ++i) {
      const auto lines = broken_into_lines(answer.by_piece[i], text_px, width - 14);
      for (std::size_t k = 0; k < lines.size(); ++k)
        svg.text({first + width * static_cast<double>(i), y + 14 + 16 * static_cast<double>(k)}, lines[k], "");
      tallest = std::max(tallest, lines.size());
    }
    const auto question = broken_into_lines(answer.question, text_px, first - columns.margin - 8, true);
    for (std::size_t k = 0; k < question.size(); ++k)
      svg.text({columns.margin, y + 14 + 16 * static_cast<double>(k)}, question[k], "strong");
    tallest = std::max(tallest, question.size());
    y += 14 + 16 * static_cast<double>(tallest - 1);
  }
  y += 7;
  svg.line({columns.margin, y}, {columns.key_right(), y}, "rule");
  return y + 10;
}

StripFrame frame_of(const Rehearsal& rehearsal, const PictureColumns& columns, const Numbers& numbers, bool with_stress) {
  StripFrame frame;
  frame.numbers = &numbers;
  frame.columns = columns;
  frame.rehearsal = &rehearsal;
  const double firing_s = firing_ends_s(rehearsal) > 0 ? firing_ends_s(rehearsal) : 60;
  const double end_s = with_stress ? shown_until_s(firing_s) : firing_s;
  frame.time = {0, end_s, frame.columns.plot_left, frame.columns.plot_right, false};
  frame.time_ticks_s = minute_ticks(end_s, std::min(16, static_cast<int>(columns.width / 55)));
  frame.windows = sealing_windows(rehearsal);
  if (with_stress) frame.bench_from_s = firing_s;
  for (const firing::Moment& moment : rehearsal.moments) {
    if (moment.what == MomentKind::closed || moment.what == MomentKind::half_sealed || moment.what == MomentKind::released)
      frame.guides_s.push_back(moment.at_s);
  }
  return frame;
}

double draw_time_axis(Svg& svg, const StripFrame& frame, double top) {
  for (const double tick : frame.time_ticks_s)
    svg.text({frame.time.at(tick), top + 15}, fmt::format("{:.0f}", tick / 60.0), "small soft", "middle");
  svg.text({frame.columns.key_left, top + 15}, frame.numbers->say("picture.minutes"), "small soft");
  return top + 24;
}

double draw_foot(Svg& svg, const Rehearsal& rehearsal, const StripFrame& frame, std::size_t left_out, double top) {
  double y = top + 14;
  const Numbers& numbers = *frame.numbers;
  std::vector<std::string> texts;
  if (!frame.windows.empty()) texts.push_back(numbers.say("picture.shaded"));
  if (rehearsal.heaviest) texts.push_back(numbers.say("picture.tray_unknown"));
  if (left_out > 0) texts.push_back(numbers.say("picture.not_drawn", {{"number", fmt::format("{}", left_out)}}));
  texts.push_back(numbers.say("safety.disclaimer"));
  const std::string version = fmt::format("{}", rehearsal.model_version);
  texts.push_back(rehearsal.inputs_hash.empty()
                      ? numbers.say("picture.made", {{"version", version}})
                      : numbers.say("picture.made_of", {{"version", version}, {"inputs", rehearsal.inputs_hash.substr(0, 12)}}));
  std::string all;
  for (const std::string& text : texts) all += (all.empty() ? "" : " ") + text;
  for (const std::string& line : broken_into_lines(all, small_text_px, frame.columns.width - 2 * frame.columns.margin)) {
    svg.text({frame.columns.margin, y}, line, "small soft");
    y += 15.5;
  }
  return y;
}

/// What stands around the strips of a sheet.
struct SheetWords {
  const std::vector<Answer>& answers;
  const std::vector<std::string>& names;
  std::size_t left_out;
};

/// Head, answers, strips and foot of a whole sheet; returns where it ends.
double draw_sheet(Svg& body, const Rehearsal& rehearsal, const verdict::Verdict& verdict, const std::vector<Strip>& strips,
                  const StripFrame& frame, const SheetWords& words) {
  double y = draw_head(body, rehearsal, verdict, frame);
  y = draw_answers(body, words.answers, words.names, rehearsal.request.pieces, frame.columns, y);
  for (std::size_t i = 0; i < strips.size(); ++i) {
    const double top = y;
    y = draw_strip(body, strips[i], frame, top);
    const double key = key_height(strips[i], frame);
    if (i == 0) draw_close_up(body, strips[i], frame, top + key + 6, y - top - key - 6);
    y += 9;
  }
  y = draw_time_axis(body, frame, y - 9);
  return draw_foot(body, rehearsal, frame, words.left_out, y) + 8;
}

}  // namespace

std::string firing_picture(const Rehearsal& rehearsal, const verdict::Verdict& verdict, const trade::Limits& limits,
                           const trade::Words& words, const PictureOptions& options) {
  const Numbers numbers(words, options.scale);
  auto names = piece_names(rehearsal);
  const auto answers = answers_of(rehearsal, numbers);
  const std::string told = description(rehearsal, answers, names, verdict, numbers);
  const std::size_t left_out = names.size() > pieces_drawn ? names.size() - pieces_drawn : 0;
  names.resize(names.size() - left_out);
  const bool in_pane = options.pane_width_px > 0;
  const bool stress_follows = options.stress_follows && !tells_stress(rehearsal);
  StripFrame frame = frame_of(rehearsal, in_pane ? pane_columns(options.pane_width_px) : PictureColumns{}, numbers,
                              stress_follows || tells_stress(rehearsal));
  frame.id = options.id;
  const auto strips = strips_of(rehearsal, limits, numbers, stress_follows);

  Svg body;
  const double y = in_pane ? draw_pane(body, strips, frame, 2, options.pane_height_px)
                           : draw_sheet(body, rehearsal, verdict, strips, frame, {answers, names, left_out});

  Svg svg;
  const std::string width = coordinate(frame.columns.width), height = coordinate(std::ceil(y));
  svg.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"},
                   {"viewBox", "0 0 " + width + " " + height},
                   {"width", width},
                   {"height", height},
                   {"role", "img"},
                   {"aria-labelledby", options.id + "-title " + options.id + "-desc"},
                   {"class", "firing-picture"}});
  svg.words("title", numbers.say("picture.title", {{"title", title_of(rehearsal, numbers)}}), {{"id", options.id + "-title"}});
  svg.words("desc", told, {{"id", options.id + "-desc"}});
  if (options.own_style) svg.raw("<style>\n" + picture_css(options.shade) + "</style>\n");
  svg.rectangle(0, 0, frame.columns.width, std::ceil(y), "paper");
  svg.raw(body.str());
  svg.close("svg");
  return svg.str();
}

}  // namespace heatwork::report
