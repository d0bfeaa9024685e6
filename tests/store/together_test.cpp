#include <gtest/gtest.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <map>
#include <new>
#include <random>
#include <thread>

#include "records/store_error.h"
#include "records/verify.h"
#include "tests/store/mixed_load.h"
#include "tests/store/test_store.h"

// Many programs on one store at once. Each is a process of its own: what threads of one program share would hide a fault.

namespace heatwork::store_proof {
namespace {

using Clock = std::chrono::steady_clock;
using records::StoreProblem;

constexpr int counters = 3;
constexpr int writing_ms = 250, reading_ms = 1000;

double ms_since(Clock::time_point from) {
  return std::chrono::duration<double, std::milli>(Clock::now() - from).count();
}

/// What one process came to, handed on through a file.
struct Report {
  std::vector<double> ms;
  std::map<std::string, std::int64_t> counts;  ///< "added 0", "conflicts", "wrong: ..."

  void write(const std::filesystem::path& path) const {
    std::ofstream file(path);
    for (const double value : ms) file << "ms " << value << "\n";
    for (const auto& [name, count] : counts) file << "count " << count << " " << name << "\n";
  }
  void read(const std::filesystem::path& path) {
    std::ifstream file(path);
    for (std::string first; file >> first;) {
      double value = 0;
      file >> value;
      std::string name;
      if (first == "count") std::getline(file >> std::ws, name), counts[name] += static_cast<std::int64_t>(value);
      if (first == "ms") ms.push_back(value);
    }
  }
  [[nodiscard]] double share(double of) {
    if (ms.empty()) return 0;
    std::sort(ms.begin(), ms.end());
    return ms[std::min(ms.size() - 1, static_cast<std::size_t>(of * static_cast<double>(ms.size())))];
  }
};

/// Seen by all processes: they begin when the last of them has opened the store, and end together.
struct Bell {
  std::atomic<int> opened{0};
  std::atomic<bool> begin{false}, end{false};

  void wait() {
    ++opened;
    while (!begin) std::this_thread::sleep_for(std::chrono::milliseconds(100));
  }
};

/// People and other programs think between two things they ask; as many milliseconds on average.
void think(std::mt19937_64& random, int mean_ms) {
  std::this_thread::sleep_for(std::chrono::milliseconds(random() % static_cast<std::uint64_t>(2 * mean_ms)));
}

records::NewVersion counter(int which, int after, std::int64_t value) {
  records::NewVersion made;
  made.kind = "lot";
  made.id = "counter-" + std::to_string(which);
  made.after = after;
  made.body = std::to_string(value);
  made.action = "changed";
  return made;
}

/// One count up, begun from the version read; a conflict is answered with both versions and gone on from with the one that stands.
/// Between reading and keeping a person types: meanwhile another may have kept.
void count_up(records::Store& store, int which, records::NewVersion beside, std::mt19937_64& random, Report& report) {
  records::Document stands = store.find("lot", "counter-" + std::to_string(which)).value();
  think(random, 50);
  while (true) {
    records::Change change;
    change.who = opening_to_load().who;
    const std::int64_t value = std::stoll(stands.body) + 1;
    change.documents = {counter(which, stands.version, value), beside};
    const auto begun = Clock::now();
    try {
      store.keep(change);
      report.ms.push_back(ms_since(begun));
      ++report.counts["added " + std::to_string(which)];
      return;
    } catch (const records::Conflict& conflict) {
      ++report.counts["conflicts"];
      if (conflict.yours() != std::to_string(value) || conflict.stands().version <= stands.version ||
          conflict.stands().id != "counter-" + std::to_string(which))
        ++report.counts["wrong: a conflict without both versions"];
      stands = conflict.stands();
    }
  }
}

void write(const records::Address& address, Bell& bell, int number, int mean_ms, Report& report) {
  std::mt19937_64 random(1000 + static_cast<std::uint64_t>(number));
  records::Store store = records::Store::open(address, opening_to_load());
  bell.wait();
  for (int i = 0; !bell.end; ++i) {
    records::NewVersion beside;
    beside.kind = "firing";
    beside.id = "firing-w" + std::to_string(number) + "-" + std::to_string(i);
    beside.body = "state ended\nat 1764000000000\nuse 1764000000000 piece-w" + std::to_string(random() % 50) + " corner dentine@1 -\n";
    beside.action = "ended";
    count_up(store, static_cast<int>(random() % counters), beside, random, report);
    think(random, mean_ms);
  }
}

constexpr std::uint64_t questions = 5;

void ask(records::Store& store, std::uint64_t which, std::mt19937_64& random, Report& report) {
  if (which == 0) {
    if (!store.find("lot", "counter-0")) ++report.counts["wrong: a document could not be found"];
  } else if (which == 1) {
    const auto page = store.pieces({records::PieceQuery::By::furnace, "corner", INT64_MIN, INT64_MAX, 1});
    if (page.count < static_cast<std::int64_t>(page.rows.size())) ++report.counts["wrong: a count less than its page"];
  } else if (which == 2) {
    (void)store.uses_of("piece-w" + std::to_string(random() % 50));
  } else if (which == 3) {
    (void)store.heads({"lot", "counter", "", 1});
  } else {
    records::EntryQuery of_one;
    of_one.kind = "lot";
    of_one.id = "counter-" + std::to_string(random() % counters);
    const auto page = store.trail(of_one);
    // Versions count without gaps, so an entry a version is what must stand there at any moment.
    if (page.rows.empty() || page.count < static_cast<std::int64_t>(page.rows.size()) ||
        page.rows.back().version != static_cast<int>(page.rows.size()))
      ++report.counts["wrong: the trail of a document has gaps"];
  }
}

void read(const records::Address& address, Bell& bell, int number, int mean_ms, Report& report) {
  std::mt19937_64 random(9000 + static_cast<std::uint64_t>(number));
  records::Opening opening = opening_to_load();
  opening.make = false;
  opening.read_only = true;
  records::Store store = records::Store::open(address, opening);
  for (std::uint64_t which = 0; which < questions; ++which) ask(store, which, random, report);
  bell.wait();
  while (!bell.end) {
    think(random, mean_ms);
    const auto begun = Clock::now();
    ask(store, random() % questions, random, report);
    report.ms.push_back(ms_since(begun));
  }
}

class Together : public OnBothEngines {
 protected:
  using Work = std::function<void(Report&)>;

  /// A process for each work; an error in it is a count of its sentence.
  pid_t in_a_process(const Work& work, const std::string& name, int number) {
    const pid_t child = ::fork();
    if (child != 0) return child;
    Report report;
    try {
      // Two hundred doors are not opened in the same second on two cores.
      std::this_thread::sleep_for(std::chrono::milliseconds(40 * number));
      work(report);
    } catch (const std::exception& error) {
      ++report.counts[std::string("wrong: ") + error.what()];
    }
    report.write(folder_ / (name + ".report"));
    std::_Exit(0);
  }

  void prepare() {
    records::Store store = records::Store::open(address_, opening_to_load());
    records::Change change;
    change.who = opening_to_load().who;
    for (int i = 0; i < counters; ++i) change.documents.push_back(counter(i, 0, 0));
    store.keep(change);
    MixedLoad load(store, 7, "before", Wrong::nothing, [](const KeptLine&) {});
    for (int i = 0; i < 200; ++i) load.step();
  }

  void run(int writers, int readers) {
    void* shared = ::mmap(nullptr, sizeof(Bell), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    ASSERT_NE(shared, MAP_FAILED);
    Bell& bell = *new (shared) Bell;
    std::vector<pid_t> children;
    for (int i = 0; i < writers; ++i)
      children.push_back(
          in_a_process([&, i](Report& report) { write(address_, bell, i, writing_ms, report); }, "writer-" + std::to_string(i), i));
    for (int i = 0; i < readers; ++i)
      children.push_back(in_a_process([&, i](Report& report) { read(address_, bell, i, reading_ms, report); },
                                      "reader-" + std::to_string(i), writers + i));
    const auto begun = Clock::now();
    while (bell.opened < writers + readers && ms_since(begun) < 60'000) std::this_thread::sleep_for(std::chrono::milliseconds(5));
    EXPECT_EQ(bell.opened, writers + readers) << "somebody could not open the store";
    bell.begin = true;
    std::this_thread::sleep_for(std::chrono::seconds(seconds_));
    bell.end = true;
    const auto ended = Clock::now();
    for (const pid_t child : children) {
      int status = 0;
      ::waitpid(child, &status, 0);
      EXPECT_EQ(status, 0) << "a process ended by itself";
    }
    EXPECT_LT(ms_since(ended), 20'000) << "somebody waited for somebody else for too long";
    ::munmap(shared, sizeof(Bell));
    for (const auto& file : std::filesystem::directory_iterator(folder_))
      if (file.path().extension() == ".report") (file.path().filename().string()[0] == 'w' ? writing_ : reading_).read(file.path());
  }

  void look(int writers, int readers) {
    for (const Report* report : {&writing_, &reading_})
      for (const auto& [name, count] : report->counts) EXPECT_FALSE(name.rfind("wrong", 0) == 0) << name << ", " << count << " times";
    records::Store store = records::Store::open(address_, opening_to_load());
    for (int i = 0; i < counters; ++i) {
      const auto document = store.find("lot", "counter-" + std::to_string(i)).value();
      EXPECT_EQ(std::stoll(document.body), writing_.counts["added " + std::to_string(i)]) << "an update was lost";
      EXPECT_EQ(document.version, 1 + writing_.counts["added " + std::to_string(i)]);
    }
    EXPECT_EQ(records::verify(store).wrong, std::vector<std::string>());
    EXPECT_GT(writing_.ms.size(), static_cast<std::size_t>(writers));
    EXPECT_GT(reading_.ms.size(), static_cast<std::size_t>(readers));
    EXPECT_GT(writing_.counts["conflicts"], 0) << "nobody met anybody";
    record(writers, readers);
  }

  void record(int writers, int readers) {
    const std::string which = std::to_string(writers) + " writers and " + std::to_string(readers) + " readers on " + engine();
    int number = 0;
    const auto figure = [&](const std::string& name, double value, const std::string& unit) {
      figure_of(++number, which + ": " + name, value, unit);
    };
    figure("changes kept", static_cast<double>(writing_.ms.size()),
           "in " + std::to_string(seconds_) + " s, each writer four a second at most, each reader one question a second");
    figure("conflicts answered with both versions", static_cast<double>(writing_.counts["conflicts"]), "");
    figure("questions answered", static_cast<double>(reading_.ms.size()), "in " + std::to_string(seconds_) + " s");
    for (const auto& [name, report] : {std::pair{"one change kept", &writing_}, std::pair{"one question", &reading_}}) {
      figure(name + std::string(", median"), report->share(0.5), "ms");
      figure(name + std::string(", 95 of 100 within"), report->share(0.95), "ms");
      figure(name + std::string(", 99 of 100 within"), report->share(0.99), "ms");
      figure(name + std::string(", longest"), report->share(1), "ms");
    }
  }

  const int seconds_ = long_run() ? 60 : 5;
  Report writing_, reading_;
};

TEST_P(Together, LoseNoUpdateAndWaitForNobodyForEver) {
  const int writers = sqlite() ? 5 : 20, readers = sqlite() ? 20 : 200;
  prepare();
  run(writers, readers);
  look(writers, readers);
}

HEATWORK_ON_BOTH_ENGINES(Together);

}  // namespace
}  // namespace heatwork::store_proof
