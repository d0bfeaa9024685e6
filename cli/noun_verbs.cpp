#include <fmt/format.h>

#include <array>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "cli/answer.h"
#include "cli/verbs.h"
#include "desk/lab/kept_change.h"
#include "desk/lab/kept_show.h"
#include "trade/noun.h"

namespace heatwork::cli {
namespace {

using trade::Noun;

/// A group of verbs over one kind of file.
struct Kind {
  Noun noun{};
  Heading heading{};
  std::string_view purpose;
  std::string_view name;  ///< of one of them, for the examples
  std::string_view set;   ///< a value of it, for the examples
};

/// In the order in which the help shows them. Materials have verbs of their own beside these: see add_material.
constexpr std::array kinds = {
    Kind{Noun::program, Heading::things_of_the_lab, "Firing programs, every version of each", "glaze-film", "drying_time=\"4 min\""},
    Kind{Noun::furnace, Heading::things_of_the_lab, "Furnaces with their corrections and what falls due", "window",
         "correction_keyed=\"3 K\""},
    Kind{Noun::instruction, Heading::things_of_the_lab, "Makers' sheets as the lab typed them", "glaze-film-sheet", "edition=\"demo 4\""},
    Kind{Noun::tray, Heading::things_of_the_lab, "Firing trays", "light", "mass=\"12.1 g\""},
    Kind{Noun::support, Heading::things_of_the_lab, "Pins, beads, paste and wool under pieces", "pins", "mass=\"2.3 g\""},
    Kind{Noun::liquid, Heading::things_of_the_lab, "Modelling and stain liquids", "our-liquid", "organic=true"},
    Kind{Noun::alloy, Heading::things_of_the_lab, "Alloys for porcelain", "our-alloy", "label=\"in the drawer\""},
    Kind{Noun::piece, Heading::things_of_the_lab, "Pieces with their walls and layers", "crown-16", "support=pins"},
    Kind{Noun::firing, Heading::records, "Firings: pieces, tray, furnace, program, what became of them", "glaze-firing", "tray=heavy"},
    Kind{Noun::dental_case, Heading::records, "Cases by their code, with teeth and pieces", "k-0417", "next_step=\"glaze firing\""},
    Kind{Noun::lot, Heading::records, "Jars, bottles and block packets on the shelf", "veneer-31-7", "used_up=true"},
    Kind{Noun::bench_step, Heading::records, "What was done to pieces between firings", "crown-16-ground", "work=clean"},
    Kind{Noun::check, Heading::records, "Checks of furnaces as they came out", "window-autumn", "next=2027-02-01"},
    Kind{Noun::reference, Heading::records, "What furnaces are checked with", "silver-wire-3", "expires=2029-03-31"},
    Kind{Noun::deviation, Heading::records, "What left an instruction or a rule, and what was decided", "long-hold",
         "trial=\"one tab, sound\""},
    Kind{Noun::person, Heading::records, "Who works in the lab, by code, and what each may do", "mara", ""},
    Kind{Noun::lab, Heading::things_of_the_lab, "The lab itself: what it is called, its language and units", "lab", "units=celsius"},
    Kind{Noun::lock, Heading::records, "What is locked against change, and why", "program-glaze-film", ""}};

constexpr Kind material{Noun::material, Heading::things_of_the_lab, "", "our-glaze", "family=\"our glaze\""};

struct Request {
  desk::AskedLab lab;
  bool json = false;
};

void shared(Verb& verb, Request& request) {
  verb.store(request.lab);
  verb.json(request.json);
}

std::string example(const Kind& kind, std::string_view verb, std::string_view rest) {
  return fmt::format("{} {} {}", trade::file_word(kind.noun), verb, rest);
}

void add_adding(Verb& group, const Kind& kind) {
  struct Adding : Request {
    desk::AddWords words;
  };
  const std::string file = fmt::format("my-lab/{}-{}.toml", trade::file_word(kind.noun), kind.name);
  Verb add = group.verb("add", "Keep new ones: files, or one by its name and values", example(kind, "add", file));
  const auto request = std::make_shared<Adding>();
  add.values("WHAT", request->words.what, "files that end in .toml; or one new name, with --set");
  add.option("--set", "KEY=VALUE", request->words.set, "with a new name; may be given several times");
  add.reason(request->words.reason);
  shared(add, *request);
  add.does([request, noun = kind.noun] { return show(desk::add_kept(request->lab, noun, request->words), request->json); });
}

void add_changing(Verb& group, const Kind& kind) {
  struct Changing : Request {
    desk::ChangeWords words;
  };
  Verb change = group.verb("change", "Keep the next version; the one before stays",
                           example(kind, "change", fmt::format("{} --set {} --reason \"as tried\"", kind.name, kind.set)));
  const auto request = std::make_shared<Changing>();
  desk::ChangeWords& words = request->words;
  change.value("NAME", words.name, "what changes");
  change.option("--file", "FILE", words.file, "its new text, whole");
  change.option("--set", "KEY=VALUE", words.set, "one value by its key, as in heating[1].hold=\"1 min\"; several too");
  change.option("--unset", "KEY", words.unset, "what is taken out, with all below it; several too");
  change.number("--from-version", "N", words.from, 1, 1'000'000, "the version you looked at; else the newest");
  change.reason(words.reason, Need::required);
  shared(change, *request);
  change.does([request, noun = kind.noun] { return show(desk::change_kept(request->lab, noun, request->words), request->json); });
}

void add_locking(Verb& group, const Kind& kind) {
  struct Locking : Request {
    std::string name, reason;
  };
  for (const bool locked : {true, false}) {
    const std::string word = locked ? "lock" : "unlock";
    Verb verb =
        group.verb(word, locked ? "Let nobody change it until it is unlocked" : "Let it be changed again",
                   example(kind, word, fmt::format("{} --reason \"{}\"", kind.name, locked ? "proven on a tab" : "to be tried anew")));
    const auto request = std::make_shared<Locking>();
    verb.value("NAME", request->name, "what is meant");
    verb.reason(request->reason, Need::required);
    shared(verb, *request);
    verb.does([request, locked, noun = kind.noun] {
      return show(desk::set_lock(request->lab, noun, request->name, locked, request->reason), request->json);
    });
  }
}

void add_writing_out(Verb& group, const Kind& kind) {
  struct Writing : Request {
    std::string name, file;
  };
  Verb write = group.verb("write-out", "Write it as a file; never over one that stands", example(kind, "write-out", kind.name));
  const auto request = std::make_shared<Writing>();
  write.value("NAME", request->name, "what is written; NAME@2: that version");
  write.option("--output", "FILE", request->file, "where to; else KIND-NAME.toml here");
  shared(write, *request);
  write.does(
      [request, noun = kind.noun] { return show(desk::write_out_kept(request->lab, noun, request->name, request->file), request->json); });
}

void add_showing(Verb& group, const Kind& kind) {
  struct Showing : Request {
    std::string name;
  };
  Verb verb = group.verb("show", "One as it is kept: text, version, who, when, why, locked", example(kind, "show", kind.name));
  const auto request = std::make_shared<Showing>();
  verb.value("NAME", request->name, "the newest; NAME@2: that version");
  shared(verb, *request);
  verb.does([request, noun = kind.noun] { return show(desk::show_kept(request->lab, noun, request->name), request->json); });
}

struct Listing : Request {
  desk::ListWords words;
};

void add_list(Verb& group, const Kind& kind) {
  Verb list = group.verb("list", "All that are kept, with version, state and label", trade::file_word(kind.noun) + " list");
  const auto request = std::make_shared<Listing>();
  list.option("--state", "STATE", request->words.state, "only those in this state, as the list shows it");
  list.page(request->words.page);
  shared(list, *request);
  list.does([request, noun = kind.noun] { return show(desk::list_kept(request->lab, noun, request->words), request->json); });
}

void add_find(Verb& group, const Kind& kind) {
  Verb find = group.verb("find", "Those whose name, label, note or parts hold a word", example(kind, "find", kind.name));
  const auto request = std::make_shared<Listing>();
  find.value("WORD", request->words.word, "a piece of text, in any case");
  find.page(request->words.page);
  shared(find, *request);
  find.does([request, noun = kind.noun] { return show(desk::list_kept(request->lab, noun, request->words), request->json); });
}

void add_history(Verb& group, const Kind& kind) {
  struct Asking : Request {
    std::string name;
  };
  // Of a case the history asked for is that of a piece.
  const std::string name = kind.noun == Noun::dental_case ? "versions" : "history";
  Verb history = group.verb(name, "Every version: who, when, why, and what changed in words", example(kind, name, kind.name));
  const auto request = std::make_shared<Asking>();
  history.value("NAME", request->name, "what is meant");
  shared(history, *request);
  history.does([request, noun = kind.noun] { return show(desk::history_of_kept(request->lab, noun, request->name), request->json); });
}

void add_difference(Verb& group, const Kind& kind) {
  struct Asking : Request {
    std::string before, after;
  };
  Verb difference = group.verb("difference", "What the one says otherwise than the other, in words",
                               example(kind, "difference", fmt::format("{0}@1 {0}", kind.name)));
  const auto request = std::make_shared<Asking>();
  difference.value("BEFORE", request->before, "NAME, NAME@2 or FILE.toml");
  difference.value("AFTER", request->after, "the same");
  shared(difference, *request);
  difference.does([request, noun = kind.noun] {
    return show(desk::difference_of_kept(request->lab, noun, request->before, request->after), request->json);
  });
}

/// What every kind can that is kept as a file.
void add_keeping(Verb& group, const Kind& kind) {
  add_adding(group, kind);
  add_find(group, kind);
  add_changing(group, kind);
  add_history(group, kind);
  add_difference(group, kind);
  add_locking(group, kind);
  add_writing_out(group, kind);
}

void add_kind(Verb& heatwork, const Kind& kind) {
  Verb group = heatwork.verb(trade::file_word(kind.noun), std::string(kind.purpose), trade::file_word(kind.noun) + " list");
  group.under(kind.heading);
  add_list(group, kind);
  // Persons are entered and shown by their own verbs; locks come by those of what they lock.
  if (kind.noun != Noun::person) add_showing(group, kind);
  if (kind.noun == Noun::person || kind.noun == Noun::lock) {
    add_find(group, kind);
    add_history(group, kind);
  } else {
    add_keeping(group, kind);
  }
  // What single kinds can besides.
  add_questions(kind.noun, group);
  if (kind.noun == Noun::dental_case) add_case_work(group);
  if (kind.noun == Noun::person) add_person_work(group);
  if (kind.noun == Noun::deviation) add_deviation_work(group);
  if (kind.noun == Noun::furnace) add_furnace_checks(group);
}

}  // namespace

void add_nouns(Verb& heatwork) {
  for (const Kind& kind : kinds) add_kind(heatwork, kind);
}

void add_keeping_of_materials(Verb& group) {
  add_keeping(group, material);
}

}  // namespace heatwork::cli
