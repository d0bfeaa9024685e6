#include <memory>

#include "cli/output.h"
#include "cli/verbs.h"
#include "desk/calibrate.h"
#include "desk/lab/materials_in_lab.h"

namespace heatwork::cli {
namespace {

struct MaterialListRequest {
  desk::AskedLab lab;
  int page = 1;
  bool json = false;
};
struct MaterialShowRequest {
  desk::AskedLab lab;
  std::string name;
  bool json = false;
};
struct MaterialCalibrateRequest {
  desk::CalibrateAsked asked;
  bool json = false;
};

int answer(const desk::CareAnswer& told, bool json) {
  put_result(json ? desk::write_json(told.json) : told.text);
  return done;
}

int answer(const MaterialCalibrateRequest& request) {
  const desk::Calibration made = desk::calibrate(request.asked);
  put_result(request.json ? desk::write_json(desk::calibration_as_json(made)) : desk::calibration_as_text(made));
  return done;
}

void add_list_and_show(Verb& material) {
  Verb list = material.verb("list", "The materials that ship, and those the lab keeps", "material list");
  const auto listed = std::make_shared<MaterialListRequest>();
  list.page(listed->page);
  list.store(listed->lab);
  list.json(listed->json);
  list.does([listed] { return answer(desk::list_materials(listed->lab, listed->page), listed->json); });

  Verb show = material.verb("show", "Every value of one material with range, standing and source", "material show zirconia-veneer");
  const auto shown = std::make_shared<MaterialShowRequest>();
  show.value("NAME", shown->name, "one the lab keeps (NAME@2: that version) or that ships, or FILE.toml");
  show.store(shown->lab);
  show.json(shown->json);
  show.does([shown] { return answer(desk::show_material(shown->lab, shown->name), shown->json); });
}

void add_calibrate(Verb& material) {
  Verb calibrate = material.verb("calibrate", "Make your own from one trial firing and how it came out",
                                 "material calibrate my-lab/window-firing.toml --piece crown-16 \\\n"
                                 "    --name my-dentine --output my-lab/my-dentine.toml");
  const auto request = std::make_shared<MaterialCalibrateRequest>();
  desk::CalibrateAsked& asked = request->asked;
  calibrate.value("FIRING", asked.firing_file, "the trial: piece, tray, furnace, program by name");
  calibrate.option("--name", "NAME", asked.name, "what pieces shall call the material", Need::required);
  calibrate.option("--output", "FILE", asked.output, "the material's file, beside your firings; ends in .toml", Need::required);
  calibrate.option("--piece", "NAME", asked.piece, "the piece that was judged, where there are several");
  calibrate.option("--material", "NAME", asked.material, "the powder or glaze that was judged, where its green layers have several");
  calibrate.option("--degree", "KELVIN", asked.degree, "how much too far fired it looked: \"10 K\", \"-10 K\"; else it looked right");
  calibrate.option("--glass-transition", "TEMPERATURE", asked.glass_transition, "of the glass, where the maker tells it: \"530 °C\"");
  calibrate.json(request->json);
  calibrate.does([request] { return answer(*request); });
}

}  // namespace

void add_material(Verb& heatwork) {
  Verb material =
      heatwork.verb("material", "Materials with the sources of their values; make and keep your own", "material show zirconia-veneer");
  material.under(Heading::things_of_the_lab);
  add_list_and_show(material);
  add_keeping_of_materials(material);
  add_calibrate(material);
}

}  // namespace heatwork::cli
