#include "records/engine_error.h"

#include <gtest/gtest.h>

#include <map>

namespace heatwork::records {
namespace {

using P = StoreProblem;

TEST(EngineError, codes_of_sqlite_have_one_meaning_each) {
  const std::map<int, StoreProblem> meanings = {{5, P::locked},
                                                {261, P::locked},
                                                {517, P::locked},
                                                {6, P::locked},
                                                {13, P::full},
                                                {778, P::full},
                                                {1034, P::full},
                                                {1546, P::full},
                                                {266, P::damaged},
                                                {522, P::damaged},
                                                {11, P::damaged},
                                                {267, P::damaged},
                                                {26, P::not_a_store},
                                                {8, P::refused},
                                                {1032, P::refused},
                                                {3, P::refused},
                                                {14, P::refused},
                                                {3850, P::refused},
                                                {1555, P::damaged},
                                                {2067, P::damaged},
                                                {18, P::bad_value},
                                                {1299, P::mistake_of_ours},
                                                {21, P::mistake_of_ours},
                                                {1, P::mistake_of_ours}};
  for (const auto& [code, problem] : meanings) EXPECT_EQ(problem_of_sqlite(code), problem) << code;
}

TEST(EngineError, states_of_postgresql_have_one_meaning_each) {
  const std::map<std::string, StoreProblem> meanings = {
      {"08000", P::unreachable},     {"08006", P::unreachable},    {"57P01", P::unreachable}, {"57P02", P::unreachable},
      {"57P03", P::unreachable},     {"53300", P::unreachable},    {"53100", P::full},        {"53200", P::refused},
      {"55P03", P::locked},          {"57014", P::locked},         {"40001", P::locked},      {"40P01", P::locked},
      {"23505", P::damaged},         {"XX001", P::damaged},        {"42P01", P::damaged},     {"42501", P::refused},
      {"28P01", P::refused},         {"25006", P::refused},        {"3D000", P::no_store},    {"22021", P::bad_value},
      {"42601", P::mistake_of_ours}, {"     ", P::mistake_of_ours}};
  for (const auto& [state, problem] : meanings) EXPECT_EQ(problem_of_sqlstate(state), problem) << state;
}

TEST(EngineError, a_connection_that_is_not_made_is_told_by_its_words) {
  EXPECT_EQ(problem_of_refused_connection("FATAL:  database \"lab\" does not exist"), P::no_store);
  EXPECT_EQ(problem_of_refused_connection("FATAL:  password authentication failed for user \"mk\""), P::refused);
  EXPECT_EQ(problem_of_refused_connection("FATAL:  no pg_hba.conf entry for host"), P::refused);
  EXPECT_EQ(problem_of_refused_connection("invalid port number: \"x\""), P::bad_address);
  EXPECT_EQ(problem_of_refused_connection("connection refused"), P::unreachable);
  EXPECT_EQ(problem_of_refused_connection("FEHLER: was auch immer"), P::unreachable);
}

TEST(EngineError, every_problem_is_one_sentence_or_two_and_shows_no_password) {
  const Doing doing{{Engine::postgresql, "postgresql://mk:secret@db/lab?password=secret&sslmode=require"}, 5000, true, false, false};
  for (int problem = 0; problem <= static_cast<int>(P::mistake_of_ours); ++problem) {
    const std::string sentence = sentence_of(static_cast<StoreProblem>(problem), doing);
    EXPECT_EQ(sentence.find("secret"), std::string::npos) << sentence;
    EXPECT_EQ(sentence.back(), '.') << sentence;
  }
  Doing committing = doing;
  committing.committing = true;
  const std::string sentence = sentence_of(P::unreachable, committing);
  EXPECT_NE(sentence.find("may have been kept or not"), std::string::npos) << sentence;
  EXPECT_EQ(sentence.find("Nothing was kept"), std::string::npos) << sentence;
}

}  // namespace
}  // namespace heatwork::records
