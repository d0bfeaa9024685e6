// The program that proofs kill: a mixed load on a store, a line for each thing kept; or, with --check, a look whether all lines it is
// given are true of a store; or, with --years, a maker of a store of that many firings.
#include <sys/resource.h>
#include <unistd.h>

#include <cstdlib>
#include <cstring>
#include <iostream>
#include <string>
#include <vector>

#include "records/inside.h"
#include "records/store_error.h"
#include "tests/store/bulk_load.h"
#include "tests/store/many.h"
#include "tests/store/mixed_load.h"

namespace {

using namespace heatwork;
using store_proof::KeptLine;

struct Asked {
  std::string address, run = "1";
  std::uint64_t seed = 1;
  long changes = -1;
  int ask_furnaces = 0;  ///< ask every question of a store of many years, and say how much memory it took
  std::int64_t ask_end = 0;
  std::int64_t years = 0;  ///< make a store of so many firings
  bool check = false, go_on = false, no_sync = false;
  store_proof::Wrong wrong = store_proof::Wrong::nothing;
};

/// One write, so that a line is there whole or not at all.
void line(const std::string& text) {
  const std::string out = text + "\n";
  if (::write(STDOUT_FILENO, out.data(), out.size()) != static_cast<ssize_t>(out.size())) std::_Exit(5);
}

int check(records::Store& store) {
  std::vector<KeptLine> called_kept;
  KeptLine read;
  for (std::string text; std::getline(std::cin, text);)
    if (KeptLine::read(text, read)) called_kept.push_back(read);
  const auto wrong = store_proof::wrong_with(store, called_kept);
  for (const std::string& sentence : wrong) line(sentence);
  const records::Status status = store.status();
  line("looked at " + std::to_string(called_kept.size()) + " lines, " + std::to_string(status.versions) + " documents, " +
       std::to_string(status.entries) + " entries");
  return wrong.empty() ? 0 : 1;
}

/// A connection that was cut is made again; what was not said to be kept may be there or not.
int load(records::Store& store, const Asked& asked) {
  if (asked.no_sync) store.inside().run("pragma synchronous = off");
  int attempt = 0;
  std::string run = asked.run;
  while (true) {
    store_proof::MixedLoad mixed(store, asked.seed + static_cast<std::uint64_t>(attempt), run, asked.wrong,
                                 [](const KeptLine& kept) { line(kept.text()); });
    line("open");
    try {
      for (long done = 0; done != asked.changes; ++done) mixed.step();
      return 0;
    } catch (const records::StoreError& error) {
      line(std::string("stopped ") + error.what());
      if (!asked.go_on || error.problem() != records::StoreProblem::unreachable) return 3;
      run = asked.run + "x" + std::to_string(++attempt);
    }
  }
}

int ask_all(const Asked& asked) {
  for (const std::string& question : store_proof::questions())
    store_proof::ask({asked.address, "mk"}, question, asked.ask_furnaces, asked.ask_end);
  struct rusage used {};
  ::getrusage(RUSAGE_SELF, &used);
  line("peak " + std::to_string(used.ru_maxrss));
  return 0;
}

int make_years(const records::Address& address, std::int64_t firings) {
  store_proof::ManyYears years(firings, 20251);
  store_proof::fill(address, years);
  line("made " + std::to_string(years.firings()) + " firings");
  return 0;
}

Asked read(int count, char** words) {
  Asked asked;
  for (int i = 1; i < count; ++i) {
    const std::string word = words[i];
    const auto next = [&] { return std::string(i + 1 < count ? words[++i] : ""); };
    if (word == "--seed")
      asked.seed = std::stoull(next());
    else if (word == "--run")
      asked.run = next();
    else if (word == "--changes")
      asked.changes = std::stol(next());
    else if (word == "--check")
      asked.check = true;
    else if (word == "--ask")
      asked.ask_furnaces = std::stoi(next()), asked.ask_end = std::stoll(next());
    else if (word == "--years")
      asked.years = std::stoll(next());
    else if (word == "--go-on")
      asked.go_on = true;
    else if (word == "--no-sync")
      asked.no_sync = true;
    else if (word == "--split")
      asked.wrong = store_proof::Wrong::split;
    else if (word == "--print-first")
      asked.wrong = store_proof::Wrong::print_first;
    else
      asked.address = word;
  }
  return asked;
}

}  // namespace

int main(int count, char** words) {
  const Asked asked = read(count, words);
  try {
    const records::Address address = records::read_address(asked.address);
    if (asked.ask_furnaces > 0) return ask_all(asked);
    if (asked.years > 0) return make_years(address, asked.years);
    records::Store store = records::Store::open(address, store_proof::opening_to_load());
    return asked.check ? check(store) : load(store, asked);
  } catch (const records::StoreError& error) {
    line(std::string("stopped ") + error.what());
    return 3;
  } catch (const std::exception& error) {
    line(std::string("stopped by a bug: ") + error.what());
    return 4;
  }
}
