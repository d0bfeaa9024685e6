#include "desk/rehearse_files.h"

#include <fmt/core.h>

#include <filesystem>
#include <utility>

#include "desk/errors.h"
#include "desk/files.h"
#include "desk/version.h"
#include "metrology/atmosphere.h"
#include "report/firing_picture.h"
#include "report/raster.h"
#include "trade/deciding_inputs.h"
#include "trade/lab_limits.h"
#include "trade/library.h"
#include "trade/shipped.h"
#include "trade/words.h"
#include "verdict/finding.h"

namespace heatwork::desk {

quantity::Pressure ambient_of_altitude(quantity::Length altitude) {
  return quantity::Pressure::si(metrology::standard_atmosphere_Pa(altitude.si()));
}

namespace {

using LimitsText = std::shared_ptr<const trade::Source>;

/// The lab's own limits where a file of them stands beside the firing.
LimitsText limits_beside(const std::string& path) {
  const auto of_lab = path.empty() ? std::nullopt : trade::find_lab_limits(path);
  return of_lab ? trade::source_from_file(*of_lab) : nullptr;
}

HowRehearsed as_told(const Manner& manner) {
  HowRehearsed how;
  how.manner = manner;
  return how;
}

const trade::Limits& shipped_limits() {
  static const trade::Limits shipped = trade::read_limits("shipped:limits/limits.toml", trade::shipped_text("limits/limits.toml"));
  return shipped;
}

const trade::DecidingInputs& shipped_inputs() {
  static const trade::DecidingInputs inputs =
      trade::read_deciding_inputs("shipped:limits/inputs.toml", trade::shipped_text("limits/inputs.toml"));
  return inputs;
}

/// The shipped limits with the lab's own; that they were used is told with what was found.
trade::Limits limits_with(const LimitsText& of_lab, trade::ResolvedFiring& request) {
  if (!of_lab) return shipped_limits();
  request.used.push_back({"limits", "lab", of_lab, 0});
  return trade::with_lab_limits(shipped_limits(), of_lab->name, of_lab->text);
}

Rehearsed rehearsed(trade::ResolvedFiring request, const LimitsText& of_lab, std::vector<firing::PieceState> start,
                    const HowRehearsed& how) {
  Rehearsed result;
  result.limits = limits_with(of_lab, request);
  firing::RehearseOptions options;
  options.start = std::move(start);
  if (how.bands) options.inputs = &shipped_inputs();
  options.stress = how.stress;
  options.unchecked_display_K = result.limits.at("display_unchecked").first;
  static firing::StressCache stress;  // a firing that is looked at is rehearsed again when it is kept, printed or asked about
  options.stress_cache = &stress;
  options.cache = how.states;
  options.maker_runs = how.maker_runs;
  options.workers = how.workers;
  options.stop = how.stop;
  result.rehearsal = firing::rehearse(request, options);
  result.verdict = judged_for(how.manner, result.rehearsal, result.limits);
  return result;
}

}  // namespace

std::optional<firing::OpenTime> open_time_of(const trade::ResolvedFiring& request) {
  return firing::open_time_of(request, shipped_inputs(), shipped_limits().at("display_unchecked").first);
}

verdict::Verdict judged_for(const Manner& manner, const firing::Rehearsal& rehearsal, const trade::Limits& limits) {
  const bool fahrenheit = manner.scale == report::TemperatureScale::fahrenheit;
  return verdict::judge(rehearsal, limits, trade::words_of(manner.language),
                        fahrenheit ? quantity::UnitSystem::fahrenheit : quantity::UnitSystem::metric);
}

Rehearsed rehearse_file(const std::string& path, const Manner& manner) {
  return rehearse_found(trade::load_firing(path, ambient_of_altitude), path, {}, manner);
}

Rehearsed rehearse_found(trade::ResolvedFiring request, const std::string& path, std::vector<firing::PieceState> start,
                         const Manner& manner) {
  const LimitsText of_lab = limits_beside(path);
  if (of_lab) request.came_from.emplace_back("limits of the lab", fmt::format("beside: {}", trade::lab_limits_file));
  return rehearsed(std::move(request), of_lab, std::move(start), as_told(manner));
}

Rehearsed rehearse_by_limits(trade::ResolvedFiring request, const LimitsText& lab_limits, const Manner& manner) {
  return rehearse_as_asked(std::move(request), lab_limits, as_told(manner));
}

Rehearsed rehearse_as_asked(trade::ResolvedFiring request, const LimitsText& lab_limits, const HowRehearsed& how) {
  if (lab_limits) request.came_from.emplace_back("limits of the lab", "as kept with the firing's rehearsal");
  return rehearsed(std::move(request), lab_limits, {}, how);
}

report::MadeBy made_by() {
  return {std::string(program_version()), data_version()};
}

PictureForm picture_form(const std::string& path) {
  const std::string ending = std::filesystem::path(path).extension().string();
  if (ending == ".svg") return PictureForm::svg;
  if (ending == ".png") return PictureForm::png;
  if (ending == ".pdf") return PictureForm::pdf;
  throw Failure(ErrorWord::wrong_use, fmt::format("A picture's name must end in .svg, .png or .pdf, and \"{}\" does not.", path));
}

void write_picture(const std::string& path, const Rehearsed& rehearsed, const Manner& manner) {
  const PictureForm form = picture_form(path);
  if (rehearsed.rehearsal.impossible) {
    throw Failure(ErrorWord::wrong_use, fmt::format("There is no picture of {}, for it was not rehearsed: {}",
                                                    rehearsed.rehearsal.request.firing.name, *rehearsed.rehearsal.impossible));
  }
  report::PictureOptions options;
  options.scale = manner.scale;
  if (form != PictureForm::svg) options.shade = report::Shade::light;
  const std::string svg =
      report::firing_picture(rehearsed.rehearsal, rehearsed.verdict, rehearsed.limits, trade::words_of(manner.language), options);
  if (form == PictureForm::svg) return write_whole(path, svg);
  write_whole(path, report::raster(svg, form == PictureForm::png ? report::RasterKind::png : report::RasterKind::pdf));
}

}  // namespace heatwork::desk
