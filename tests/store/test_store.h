// What the programs of this folder share: a store of their own on each engine, whether the full counts are asked for, and figures.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <string>

#include "records/inside.h"
#include "records/store.h"

namespace heatwork::store_proof {

/// The full counts.
bool long_run();

/// A figure of this test, printed and, after a long run, kept in docs/evidence/long.toml. Numbers count from 1 in each test.
void figure_of(int number, const std::string& name, double value, const std::string& unit);

/// Has an address nothing stands at; on PostgreSQL a database of its own on the server that HEATWORK_TEST_POSTGRES names.
class OnBothEngines : public testing::TestWithParam<records::Engine> {
 protected:
  void SetUp() override;
  void TearDown() override;
  [[nodiscard]] static bool sqlite() { return GetParam() == records::Engine::sqlite; }
  [[nodiscard]] static std::string engine() { return sqlite() ? "SQLite" : "PostgreSQL"; }
  /// Runs a statement past the store.
  static void on(const records::Address& address, const std::string& statement);

  std::filesystem::path folder_;
  records::Address address_;

 private:
  std::string server_, database_;
};

inline std::string engine_name(const testing::TestParamInfo<records::Engine>& info) {
  return std::string(records::word(info.param));
}

}  // namespace heatwork::store_proof

#define HEATWORK_ON_BOTH_ENGINES(suite)                                                                                               \
  INSTANTIATE_TEST_SUITE_P(Engines, suite, testing::Values(heatwork::records::Engine::sqlite, heatwork::records::Engine::postgresql), \
                           heatwork::store_proof::engine_name)
