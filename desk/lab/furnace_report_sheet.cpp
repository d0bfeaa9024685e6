#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "desk/errors.h"
#include "desk/files.h"
#include "desk/lab/furnace_care_report.h"
#include "desk/lab/furnace_report_words.h"
#include "desk/lab/told_in_units.h"
#include "report/printed_sheet.h"
#include "trade/mistake.h"
#include "trade/sentences.h"

namespace heatwork::desk {
namespace {

using furnace_care::QualificationLine;
using report::SheetBlock;

/// Whatever is said on the sheet, in its language.
class Saying {
 public:
  explicit Saying(const SheetSpeech& speech) : speech_(speech) {}
  std::string operator()(const std::string& english) const {
    return told_in_units(speech_.units, trade::in_language(english, speech_.language));
  }
  /// What stands between commas is said part by part.
  [[nodiscard]] std::string parts(const std::string& english) const {
    std::string out;
    for (std::size_t at = 0; at <= english.size();) {
      const std::size_t comma = std::min(english.find(", ", at), english.size());
      out += (out.empty() ? "" : ", ") + (*this)(english.substr(at, comma - at));
      at = comma + 2;
    }
    return out;
  }

 private:
  SheetSpeech speech_;
};

SheetBlock result_block(const FurnaceReport& report, const Saying& said) {
  const furnace_care::Qualification& found = report.qualification;
  return {said("Result"), {said(found.sentence), said(found.next)}, {}};
}

SheetBlock installed_block(const FurnaceReport& report, const Saying& said) {
  SheetBlock block{said("As installed"), {}, {{{said("What"), 1}, {said("As its file says"), 2}}, {}}};
  for (const auto& [name, value] : installed_in_words(report.kept.furnace)) block.table.rows.push_back({said(name), said.parts(value)});
  return block;
}

void add_rows(SheetBlock& block, const FurnaceReport& report, const QualificationLine& line, const Saying& said) {
  const auto row = [&](const char* which, const std::optional<std::size_t>& index) {
    if (!index) return;
    const trade::Check& check = kept_check(report, *index);
    block.table.rows.push_back({said(std::string(word(line.work))), said(which), day_of(report, check), said(came_in_words(check)),
                                said.parts(found_in_words(check)), said(limit_of_check(check).empty() ? "-" : limit_of_check(check)),
                                fmt::format("{}, {}", check.name, check.person)});
  };
  row("as found", line.as_found);
  row("as left", line.as_left);
  if (!line.as_found && !line.as_left)
    block.table.rows.push_back({said(std::string(word(line.work))), "-", "-", said(std::string(state_word(line.state))), "-", "-", "-"});
}

SheetBlock checks_block(const FurnaceReport& report, const Saying& said) {
  SheetBlock block{said("Checks, as found and as left"), {}, {}};
  block.table.columns = {{said("Work"), 1.9},  {said("Condition"), 1.4}, {said("Day"), 1.25},     {said("Came out"), 1.3},
                         {said("Found"), 1.9}, {said("Limit"), 1.15},    {said("Check, by"), 1.5}};
  for (const QualificationLine& line : report.qualification.lines) add_rows(block, report, line, said);
  return block;
}

SheetBlock specimens_block(const FurnaceReport& report, const Saying& said) {
  const furnace_care::Qualification& found = report.qualification;
  SheetBlock block{said("Specimen firings"), {}, {}};
  block.paragraphs = {said(
      fmt::format("{} as wanted, {} not, of {} wanted", found.specimens_as_wanted, found.specimens_not, furnace_care::specimens_wanted))};
  block.table.columns = {{said("Firing"), 2}, {said("Day"), 1}, {said("Came out"), 1}};
  for (const furnace_care::SpecimenFiring& specimen : report.kept.specimens)
    if (specimen.day >= found.since.day)
      block.table.rows.push_back(
          {specimen.name, furnace_care::day_text(specimen.day), said(specimen.as_wanted ? "as wanted" : "not good")});
  if (block.table.rows.empty()) block.table.columns.clear();
  return block;
}

SheetBlock changes_block(const FurnaceReport& report, const Saying& said) {
  SheetBlock block{said("What was changed"), {}, {{{said("Day"), 1}, {said("What"), 3}, {said("By"), 2}}, {}}};
  for (const furnace_care::Reopening& each : report.kept.reopenings)
    block.table.rows.push_back({furnace_care::day_text(each.day), said(each.words), each.by});
  return block;
}

}  // namespace

std::vector<std::string> sheet_of(const FurnaceReport& report, report::Paper paper, const SheetSpeech& speech) {
  const Saying said(speech);
  const furnace_care::Qualification& found = report.qualification;
  report::PrintedSheet sheet;
  sheet.title = said(fmt::format("Report of furnace {}", report.kept.furnace.name));
  sheet.subtitle = said(fmt::format("{}, as kept on {} (zone {})", word(found.outcome), report.today, report.zone));
  if (found.outcome == furnace_care::Qualified::out_of_use) sheet.tag = said("OUT OF USE: fire nothing in this furnace.");
  sheet.blocks = {result_block(report, said), installed_block(report, said), checks_block(report, said), specimens_block(report, said),
                  changes_block(report, said)};
  sheet.to_sign = {said("Day and signature of who checked"), said("Day and signature of who releases the furnace")};
  return report::sheet_pages(sheet, paper, report::Numbers(trade::words_of(speech.language), speech.units));
}

void check_sheet_name(const std::string& path) {
  if (std::filesystem::path(path).extension() != ".pdf")
    throw Failure(ErrorWord::wrong_use, fmt::format("A report's name must end in .pdf, and \"{}\" does not.", path));
}

namespace {

std::string pdf_of(const FurnaceReport& report, report::Paper paper, const SheetSpeech& speech) {
  const std::string title = trade::in_language(fmt::format("Report of furnace {}", report.kept.furnace.name), speech.language);
  return report::raster_pages(sheet_of(report, paper, speech), paper, title);
}

}  // namespace

std::string report_sheet(const AskedLab& asked, const std::string& furnace, const std::string& paper, const SheetSpeech& speech) {
  if (!paper.empty() && paper != "a4" && paper != "letter")
    throw Failure(ErrorWord::bad_value, fmt::format("A sheet is printed on a4 or letter, not on \"{}\".", trade::for_message(paper)));
  return pdf_of(report_of_furnace(asked, furnace), paper == "letter" ? report::Paper::letter : report::Paper::a4, speech);
}

void write_report_sheet(const std::string& path, const FurnaceReport& report, report::Paper paper, const SheetSpeech& speech) {
  check_sheet_name(path);
  write_whole(path, pdf_of(report, paper, speech));
}

}  // namespace heatwork::desk
