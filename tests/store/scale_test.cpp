#include <fcntl.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <functional>

#include "records/store_error.h"
#include "records/verify.h"
#include "tests/store/bulk_load.h"
#include "tests/store/many.h"
#include "tests/store/test_store.h"

// A store as large as ten years of a group of labs: what it answers, how fast, and how much it takes.

namespace heatwork::store_proof {
namespace {

using Clock = std::chrono::steady_clock;

double ms_of(const std::function<void()>& work) {
  const auto begun = Clock::now();
  work();
  return std::chrono::duration<double, std::milli>(Clock::now() - begun).count();
}

double median_of(int times, const std::function<void()>& work) {
  std::vector<double> ms;
  for (int i = 0; i < times; ++i) ms.push_back(ms_of(work));
  std::sort(ms.begin(), ms.end());
  return ms[ms.size() / 2];
}

/// Of the last minute: what else the machine was doing.
std::string load_average() {
  std::string text;
  std::ifstream("/proc/loadavg") >> text;
  return text;
}

class Scale : public OnBothEngines {
 protected:
  [[nodiscard]] static std::int64_t firings() {
    const char* asked = std::getenv("HEATWORK_SCALE_FIRINGS");
    return asked ? std::stoll(asked) : long_run() ? 1'500'000 : 20'000;
  }

  /// HEATWORK_SCALE_AT names where the store is made, or stands from a run before, and stays; else it is gone at the end.
  void SetUp() override {
    const char* at = std::getenv("HEATWORK_SCALE_AT");
    const std::string where = at ? at : "";
    if (!where.empty() && records::read_address(where).engine != GetParam()) GTEST_SKIP() << "The store asked for is on the other engine.";
    OnBothEngines::SetUp();
    if (where.empty()) return;
    address_ = records::read_address(where);
    try {
      stands_ = records::Store::open(address_, standing()).status().versions > firings();
    } catch (const records::StoreError&) {
      stands_ = false;
    }
  }
  static records::Opening standing() {
    records::Opening opening = opening_of_many();
    opening.make = false;
    return opening;
  }

  void figure(const std::string& name, double value, const std::string& unit) {
    figure_of(++figures_, std::to_string(firings()) + " firings on " + engine() + ": " + name, value, unit);
  }

  /// One plain write and sync of as many bytes, in the folder where the store stands.
  double plain_ms(std::size_t bytes) {
    const std::string path = (folder_ / "plain").string(), text(bytes, 'x');
    const int file = ::open(path.c_str(), O_CREAT | O_WRONLY | O_APPEND, 0600);
    const double ms = median_of(51, [&] {
      EXPECT_EQ(::write(file, text.data(), text.size()), static_cast<ssize_t>(text.size()));
      EXPECT_EQ(::fsync(file), 0);
    });
    ::close(file);
    return ms;
  }

  void load() {
    const double ms = ms_of([&] { fill(address_, years_); });
    figure("loading", ms / 1000, "s, some 500 documents a change, indexes built at its end; load average then " + load_average());
  }

  void keep_one(records::Store& store) {
    int number = static_cast<int>(store.status().entries % 1'000'000'000);  // new names in a store that stood
    std::size_t bytes = 0;
    for (const auto& document : years_.one_firing(number).documents) bytes += document.body.size();
    const double kept = median_of(51, [&] { store.keep(years_.one_firing(++number)); }), plain = plain_ms(bytes);
    figure("one firing kept with its rehearsal, median of 51", kept, "ms");
    figure("one plain write and sync of the same bytes", plain, "ms");
    EXPECT_LT(kept, std::max(5.0, 3 * plain));
  }

  void question_all() {
    for (const std::string& question : questions()) {
      std::int64_t rows = 0;
      const auto once = [&] { rows = ask({address_.where, "mk"}, question, years_.furnaces(), years_.end_ms()); };
      once();
      const double ms = median_of(21, once);
      figure(question, ms, "ms, median of 21, " + std::to_string(rows) + " rows");
      EXPECT_GT(rows, 0) << question;
      EXPECT_LT(ms, 100) << question;
    }
  }

  /// Of a program of its own that asks everything once.
  void memory() {
    const char* program = std::getenv("HEATWORK_STORE_LOAD");
    ASSERT_TRUE(program) << "HEATWORK_STORE_LOAD names no program";
    const std::string command = std::string(program) + " '" + address_.where + "' --ask " + std::to_string(years_.furnaces()) + " " +
                                std::to_string(years_.end_ms());
    std::FILE* pipe = ::popen(command.c_str(), "r");
    ASSERT_TRUE(pipe);
    long kilobytes = 0;
    EXPECT_EQ(std::fscanf(pipe, "peak %ld", &kilobytes), 1);
    EXPECT_EQ(::pclose(pipe), 0);
    figure("most memory of a program that asks every question", static_cast<double>(kilobytes) / 1024, "MB");
    EXPECT_LT(kilobytes, 100 * 1024);
  }

  ManyYears years_{firings(), 20251};
  int figures_ = 0;
  bool stands_ = false;
};

TEST_P(Scale, AnswersInTime) {
  if (!stands_) load();
  records::Store store = records::Store::open(address_, opening_of_many());
  const records::Status status = store.status();
  figure("documents, all versions", static_cast<double>(status.versions), "");
  figure("bytes a firing, all that belongs to it counted", static_cast<double>(status.bytes) / static_cast<double>(firings()), "byte");
  question_all();
  keep_one(store);
  memory();
  std::vector<std::string> wrong;
  const double verifying = ms_of([&] { wrong = records::verify(store).wrong; });
  figure("verify, each document read anew by desk", verifying / 1000, "s");
  EXPECT_EQ(wrong, std::vector<std::string>());
}

HEATWORK_ON_BOTH_ENGINES(Scale);

}  // namespace
}  // namespace heatwork::store_proof
