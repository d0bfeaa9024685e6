#include <memory>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "cli/verbs.h"
#include "desk/lab/bench_work.h"
#include "desk/lab/firing_work.h"
#include "desk/lab/piece_history.h"

namespace heatwork::cli {
namespace {

struct WorkRequest {
  desk::AskedLab lab;
  bool json = false;
};

void add_start(Verb& group) {
  struct Request : WorkRequest, desk::StartWords {};
  Verb verb = group.verb("start", "Start a firing: pins the version of all it names", "case start firing --read-back \"817 on the panel\"");
  const auto asked = std::make_shared<Request>();
  verb.value("FIRING", asked->firing, "one that is kept, \"rehearse FILE --keep\"");
  verb.option("--read-back", "TEXT", asked->read_back, "what was read off the panel before the start");
  verb.at(asked->at);
  verb.store(asked->lab);
  verb.json(asked->json);
  verb.does([asked] { return show(desk::start_firing(asked->lab, *asked), asked->json); });
}

void add_end(Verb& group) {
  struct Request : WorkRequest, desk::EndWords {};
  Verb verb = group.verb("end", "End a firing with its result, and what was read off the furnace",
                         "case end firing --piece \"crown-16=as wanted\" --piece bridge-24-26=fire-again");
  const auto asked = std::make_shared<Request>();
  verb.value("FIRING", asked->firing, "one that is started");
  verb.option("--piece", "NAME=OUTCOME", asked->outcomes, "as wanted, fire again, make again, not judged", Need::required);
  verb.option("--looked-like", "NAME=K", asked->looked_like, "degree of firing seen: like \"-10 K\", too cold");
  verb.option("--seen", "NAME=TEXT", asked->seen, "what was seen, in words");
  verb.option("--highest-display", "TEMP", asked->highest_display, "\"818 \u00b0C\"");
  verb.option("--hold", "DURATION", asked->hold, "at the highest temperature, \"1 min\"");
  verb.option("--lowest-pressure", "PRESSURE", asked->lowest_pressure, "absolute, \"53 mbar\"");
  verb.option("--duration", "DURATION", asked->duration, "from start to end");
  verb.at(asked->at);
  verb.store(asked->lab);
  verb.json(asked->json);
  verb.does([asked] { return show(desk::end_firing(asked->lab, *asked), asked->json); });
}

void add_interrupted_and_call_off(Verb& group) {
  struct Request : WorkRequest {
    std::string firing, words, at;
  };
  Verb stopped = group.verb("interrupted", "Say that a firing was interrupted", "case interrupted firing --what \"mains cut\"");
  const auto cut = std::make_shared<Request>();
  stopped.value("FIRING", cut->firing, "one that is started");
  stopped.option("--what", "TEXT", cut->words, "what happened", Need::required);
  stopped.at(cut->at);
  stopped.store(cut->lab);
  stopped.json(cut->json);
  stopped.does([cut] { return show(desk::interrupt_firing(cut->lab, cut->firing, cut->words, cut->at), cut->json); });

  Verb verb = group.verb("call-off", "Call off a firing that was planned", "case call-off firing --reason \"frame does not fit\"");
  const auto off = std::make_shared<Request>();
  verb.value("FIRING", off->firing, "one that is planned");
  verb.reason(off->words, Need::required);
  verb.store(off->lab);
  verb.json(off->json);
  verb.does([off] { return show(desk::call_off_firing(off->lab, off->firing, off->words), off->json); });
}

void add_step(Verb& group) {
  struct Request : WorkRequest, desk::StepWords {};
  Verb verb = group.verb("step", "Record a bench step: what was done to pieces between firings",
                         "case step layers-2 --work build-up --piece crown-16 --lot veneer-31-7");
  const auto asked = std::make_shared<Request>();
  verb.value("NAME", asked->name, "a name of its own");
  verb.option("--work", "WORK", asked->work, "build-up, opaque, wash, stain, glaze, grind, blast, clean, ...", Need::required);
  verb.option("--piece", "NAME", asked->pieces, "it was done to", Need::required);
  verb.option("--lot", "NAME", asked->lots, "that was used");
  verb.option("--piece-file", "FILE", asked->piece_files, "a piece that changed in it, as it is now");
  verb.option("--note", "TEXT", asked->note, "in words");
  verb.at(asked->at);
  verb.store(asked->lab);
  verb.json(asked->json);
  verb.does([asked] { return show(desk::record_step(asked->lab, *asked), asked->json); });
}

void add_photos(Verb& group) {
  struct Request : WorkRequest {
    std::string name, of, file;
    std::vector<std::string> files;
  };
  Verb photo = group.verb("photo", "Keep photos with a firing, each once", "case photo firing shot.jpg --of \"crown after dentine\"");
  const auto kept = std::make_shared<Request>();
  photo.value("FIRING", kept->name, "one that is kept");
  photo.values("FILE", kept->files, "JPEG, PNG, WebP, HEIC or TIFF, at most 10 MB");
  photo.option("--of", "TEXT", kept->of, "what they show");
  photo.store(kept->lab);
  photo.json(kept->json);
  photo.does([kept] { return show(desk::keep_photos(kept->lab, kept->name, kept->files, kept->of), kept->json); });

  Verb out = group.verb("photo-out", "Write a kept photo into a file", "case photo-out HASH shot.jpg");
  const auto written = std::make_shared<Request>();
  out.value("HASH", written->name, "the photo's, as the firing names it");
  out.value("FILE", written->file, "one that does not stand yet");
  out.store(written->lab);
  out.json(written->json);
  out.does([written] { return show(desk::write_photo(written->lab, written->name, written->file), written->json); });
}

void add_history(Verb& group) {
  struct Request : WorkRequest {
    std::string piece;
  };
  Verb verb = group.verb("history", "All a piece went through, and what it was after each firing", "case history crown-16");
  const auto asked = std::make_shared<Request>();
  verb.value("PIECE", asked->piece, "its name");
  verb.store(asked->lab);
  verb.json(asked->json);
  verb.does([asked] { return show(desk::history_of_piece(asked->lab, asked->piece), asked->json); });
}

}  // namespace

void add_case_work(Verb& group) {
  add_start(group);
  add_end(group);
  add_interrupted_and_call_off(group);
  add_step(group);
  add_photos(group);
  add_history(group);
}

}  // namespace heatwork::cli
