// A fresh store a test on each engine, with documents a test can write by hand: "use AT PIECE FURNACE PROGRAM LOT" on a line of its own.
#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <sstream>
#include <stdexcept>
#include <string>

#include "records/inside.h"
#include "records/store.h"

namespace heatwork::records::for_tests {

/// Lines "label TEXT", "state TEXT", "at MS", "use MS PIECE FURNACE PROGRAM LOT" ("-" for nothing), "due DAY WHAT"; anything else is
/// words. A document that begins with "unreadable" cannot be read.
inline Index toy_index(const Document& document) {
  if (document.body.rfind("unreadable", 0) == 0) throw std::runtime_error("Line 1 cannot be read.");
  const auto given = [](const std::string& text) { return text == "-" ? std::string() : text; };
  Index index;
  index.label = document.id;
  std::istringstream lines(document.body);
  for (std::string line; std::getline(lines, line);) {
    std::istringstream words(line);
    std::string first, rest;
    words >> first;
    std::getline(words >> std::ws, rest);
    std::istringstream more(rest);
    if (first == "label") {
      index.label = rest;
    } else if (first == "state") {
      index.state = rest;
    } else if (first == "at") {
      index.at_ms = std::stoll(rest);
    } else if (first == "use") {
      Use use;
      more >> use.at_ms >> use.piece >> use.furnace >> use.program >> use.lot;
      index.uses.push_back({use.at_ms, given(use.piece), given(use.furnace), given(use.program), given(use.lot)});
    } else if (first == "due") {
      Due due;
      more >> due.on >> std::ws;
      std::getline(more, due.what);
      index.dues.push_back(due);
    } else {
      index.words += line.substr(0, 1000) + " ";
    }
  }
  return index;
}

inline Who somebody() {
  return {"mk", "named", "2026-11-25T17:11:04.123Z", "Europe/Berlin"};
}

inline Opening opening() {
  Opening opening;
  opening.index_of = toy_index;
  opening.make = true;
  opening.who = somebody();
  return opening;
}

inline NewVersion version(const std::string& kind, const std::string& id, int after, const std::string& body) {
  NewVersion made;
  made.kind = kind;
  made.id = id;
  made.after = after;
  made.body = body;
  made.action = after == 0 ? "added" : "changed";
  return made;
}

inline Change change(std::vector<NewVersion> documents) {
  Change made;
  made.who = somebody();
  made.documents = std::move(documents);
  return made;
}

/// Problem and sentence of what a call throws.
template <class Call>
std::pair<StoreProblem, std::string> problem_of(Call&& call) {
  try {
    call();
  } catch (const StoreError& error) {
    return {error.problem(), error.what()};
  }
  ADD_FAILURE() << "Nothing was thrown.";
  return {StoreProblem::mistake_of_ours, ""};
}

/// Has an address nothing stands at; on PostgreSQL a database of its own on the server that HEATWORK_TEST_POSTGRES names.
class OnEachEngine : public testing::TestWithParam<Engine> {
 protected:
  void SetUp() override {
    static int number = 0;
    const std::string name = "heatwork_test_" + std::to_string(::getpid()) + "_" + std::to_string(++number);
    folder_ = std::filesystem::temp_directory_path() / name;
    std::filesystem::create_directories(folder_);
    if (GetParam() == Engine::sqlite) {
      address_ = {Engine::sqlite, (folder_ / "lab.sqlite").string()};
      return;
    }
    const char* server = std::getenv("HEATWORK_TEST_POSTGRES");
    if (!server || !*server) GTEST_SKIP() << "HEATWORK_TEST_POSTGRES names no server where databases may be made.";
    server_ = server;
    database_ = name;
    on_server("create database " + database_);
    const auto path = server_.find('/', server_.find("://") + 3);
    const auto question = server_.find('?');
    address_ = {Engine::postgresql, server_.substr(0, std::min(path, question)) + "/" + database_ +
                                        (question == std::string::npos ? "" : server_.substr(question))};
  }

  void TearDown() override {
    if (!database_.empty()) on_server("drop database if exists " + database_ + " with (force)");
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }

  void on_server(const std::string& statement) const {
    Store::Inside server;
    server.address = {Engine::postgresql, server_};
    server.run(statement);
  }

  /// Runs a statement past the store, as somebody would who alters it.
  void behind_its_back(const std::string& statement) const {
    Store::Inside hand;
    hand.address = address_;
    hand.run(statement);
  }

  [[nodiscard]] const std::string& database() const { return database_; }
  [[nodiscard]] bool sqlite() const { return address_.engine == Engine::sqlite; }
  Store fresh() const { return Store::open(address_, opening()); }

  std::filesystem::path folder_;
  Address address_;

 private:
  std::string server_, database_;
};

inline std::string engine_name(const testing::TestParamInfo<Engine>& info) {
  return std::string(word(info.param));
}

}  // namespace heatwork::records::for_tests

/// Runs a suite of OnEachEngine on both.
#define HEATWORK_ON_EACH_ENGINE(suite)                                                                                                \
  INSTANTIATE_TEST_SUITE_P(Engines, suite, testing::Values(heatwork::records::Engine::sqlite, heatwork::records::Engine::postgresql), \
                           heatwork::records::for_tests::engine_name)
