#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/verbs.h"
#include "desk/lab/furnace_check_records.h"

namespace heatwork::cli {
namespace {

/// What stands beside a record, as typed.
struct Beside {
  std::string room, note, after_repair, as_left;
  bool json = false;
};

void answer(desk::FurnaceCheckWords& words, const std::string& key, const std::string& typed) {
  if (!typed.empty()) words.answers.push_back({key, typed});
}

void answer_beside(desk::FurnaceCheckWords& words, const Beside& beside) {
  answer(words, "note", beside.note);
  answer(words, "after_repair", beside.after_repair);
  answer(words, "as_left", beside.as_left);
}

void shared(Verb& verb, desk::AskedLab& lab, desk::FurnaceCheckWords& words, Beside& beside) {
  verb.option("--room", "TEMP", beside.room, "of the room, \"21 \u00b0C\"");
  verb.option("--after-repair", "TEXT", beside.after_repair, "what was repaired or exchanged before");
  verb.option("--as-left", "YES", beside.as_left, "checked after an adjustment, not as found");
  verb.option("--note", "TEXT", beside.note, "anything worth keeping");
  verb.flag("--keep", words.keep, "keep the check; else nothing is kept");
  verb.option("--name", "NAME", words.name, "of the check; else furnace, kind and day");
  verb.reason(words.reason);
  verb.store(lab);
  verb.json(beside.json);
}

struct VacuumRequest : Beside {
  desk::AskedLab lab;
  desk::VacuumCheckWords words;
  std::string gauge, barometer, chamber, pump_warm;
};

int check_vacuum(const VacuumRequest& request) {
  desk::VacuumCheckWords words = request.words;
  answer_beside(words, request);
  answer(words, "vacuum.gauge", request.gauge);
  answer(words, "vacuum.barometer", request.barometer);
  answer(words, "vacuum.room", request.room);
  answer(words, "vacuum.chamber", request.chamber);
  answer(words, "vacuum.pump_warm", request.pump_warm);
  return show_measured(
      request.lab, [&] { return desk::check_vacuum(request.lab, words); }, request.json);
}

void add_vacuum(Verb& check) {
  Verb verb = check.verb("vacuum", "Pump and tightness, from readings of the furnace's own gauge",
                         "furnace check vacuum corner --pump-down-from pump.csv --barometer \"991 mbar\" --keep");
  const auto request = std::make_shared<VacuumRequest>();
  desk::VacuumCheckWords& words = request->words;
  verb.value("FURNACE", words.furnace, "one that is kept");
  verb.option("--pump-down", "READING", words.pump_down.readings, "while the pump runs, \"10 s, 412 mbar\"; several");
  verb.option("--pump-down-from", "FILE", words.pump_down.file, "the same as a table: time, pressure");
  verb.option("--rise", "READING", words.rise.readings, "pump off and chamber shut, \"30 s, 14 mbar\"; several");
  verb.option("--rise-from", "FILE", words.rise.file, "the same as a table");
  verb.flag("--cannot-be-shut", words.cannot_be_shut, "this furnace does not hold its vacuum with the pump off");
  verb.option("--gauge", "KIND", request->gauge, "absolute, below ambient, percent of ambient; else as it is kept");
  verb.option("--barometer", "PRESSURE", request->barometer, "of the place, \"991 mbar\"; else by the altitude");
  verb.option("--pump-warm", "YES", request->pump_warm, "yes: the pump had run warm before; no");
  verb.option("--chamber", "TEMP", request->chamber, "of the chamber, \"60 \u00b0C\"");
  shared(verb, request->lab, words, *request);
  verb.does([request] { return check_vacuum(*request); });
}

struct HeatingRequest : Beside {
  desk::AskedLab lab;
  desk::HeatingCheckWords words;
  std::string mains, asked_rate, capped;
};

int check_heating(const HeatingRequest& request) {
  desk::HeatingCheckWords words = request.words;
  answer_beside(words, request);
  answer(words, "heating_run.mains", request.mains);
  answer(words, "heating_run.room", request.room);
  answer(words, "heating_run.asked_rate", request.asked_rate);
  answer(words, "heating_run.capped", request.capped);
  return show_measured(
      request.lab, [&] { return desk::check_heating(request.lab, words); }, request.json);
}

void add_heat_up(Verb& check) {
  Verb verb = check.verb("heat-up", "Element, lining and mains, from a run at full power",
                         "furnace check heat-up corner --run-from run.csv --mains \"228 V\" --room \"21 \u00b0C\" --keep");
  const auto request = std::make_shared<HeatingRequest>();
  desk::HeatingCheckWords& words = request->words;
  verb.value("FURNACE", words.furnace, "one that is kept");
  verb.option("--run", "READING", words.run.readings, "of the display, \"35 s, 118 \u00b0C\"; several");
  verb.option("--run-from", "FILE", words.run.file, "the same as a table: time, temperature");
  verb.option("--mains", "VOLTAGE", request->mains, "under load, \"228 V\"");
  verb.option("--asked-rate", "RATE", request->asked_rate, "that the program asked for");
  verb.option("--capped", "YES", request->capped, "yes: program or panel held the rate down; no");
  shared(verb, request->lab, words, *request);
  verb.does([request] { return check_heating(*request); });
}

}  // namespace

void add_furnace_records(Verb& check) {
  add_vacuum(check);
  add_heat_up(check);
}

}  // namespace heatwork::cli
