#include "server/body.h"

#include <gtest/gtest.h>

#include "desk/errors.h"
#include "server/values.h"

namespace heatwork::server {
namespace {

template <class Work>
std::string sentence_of(Work&& work) {
  try {
    work();
  } catch (const desk::Failure& failure) {
    return failure.what();
  }
  return "nothing was refused";
}

const desk::Json body = desk::JsonObject{{"name", "morning"},
                                         {"from", 3},
                                         {"half", 2.5},
                                         {"anew", true},
                                         {"pieces", desk::JsonList{"a", "b"}},
                                         {"mixed", desk::JsonList{"a", 1}},
                                         {"set", desk::JsonObject{{"drying", "4 min"}}},
                                         {"empty", nullptr}};

TEST(Body, GivesEachKeyByItsKind) {
  const Body read("the body", body);
  EXPECT_EQ(read.text("name"), "morning");
  EXPECT_EQ(read.whole("from", 1, 10), 3);
  EXPECT_EQ(read.number("half"), 2.5);
  EXPECT_TRUE(read.truth("anew"));
  EXPECT_EQ(read.texts("pieces"), (std::vector<std::string>{"a", "b"}));
  EXPECT_EQ(read.object("set", {"drying"}).text("drying"), "4 min");
  EXPECT_EQ(read.texts_by_name("set"), (std::vector<Values::Pair>{{"drying", "4 min"}}));
  EXPECT_FALSE(read.has("empty"));
  EXPECT_EQ(read.text_or("reason", "none"), "none");
  EXPECT_TRUE(read.texts("absent").empty());
}

TEST(Body, RefusesInOneSentence) {
  const Body read("the body", body);
  EXPECT_EQ(sentence_of([&] {
              Body("the body", body, {"name", "form"});
            }),
            "\"from\" is not a key of the body (did you mean \"form\"?); its keys are name, form.");
  EXPECT_EQ(sentence_of([&] { (void)read.text("from"); }), "\"from\" of the body is 3, but must be text.");
  EXPECT_EQ(sentence_of([&] { (void)read.text("reason"); }), "\"reason\" is missing from the body: it must be text.");
  EXPECT_EQ(sentence_of([&] { (void)read.whole("half", 1, 9); }), "\"half\" of the body is 2.5, but must be a whole number from 1 to 9.");
  EXPECT_EQ(sentence_of([&] { (void)read.texts("mixed"); }), "\"mixed\" of the body holds 1, but must be a list of texts.");
  EXPECT_EQ(sentence_of([&] {
              (void)read.word("name", {"evening", "mornings"});
            }),
            "\"name\" of the body is \"morning\", but must be \"evening\" or \"mornings\" (did you mean \"mornings\"?).");
  EXPECT_EQ(sentence_of([&] { (void)read.object("set", {"hold"}); }), "\"drying\" is not a key of \"set\"; its keys are hold.");
  EXPECT_EQ(sentence_of([&] { Body("the body", desk::Json()); }), "the body must be a JSON object, not nothing.");
}

TEST(Query, IsReadStrictly) {
  const Values values({{"page", "2"}, {"word", "de"}, {"open", "yes"}});
  EXPECT_EQ(Query(values, {"page", "word", "open"}).whole_or("page", 1, 1, 9), 2);
  EXPECT_EQ(sentence_of([&] {
              Query(values, {"pages", "word", "open"});
            }),
            "\"page\" is not a name of this address (did you mean \"pages\"?); its names are pages, word, open.");
  EXPECT_EQ(sentence_of([&] {
              (void)Query(values, {"page", "word", "open"}).truth_or("open", false);
            }),
            "\"open\" is \"yes\", but must be true or false.");
  EXPECT_EQ(sentence_of([&] {
              (void)Query(values, {"page", "word", "open"}).whole_or("word", 1, 1, 9);
            }),
            "\"word\" is \"de\", but must be a whole number from 1 to 9.");
}

}  // namespace
}  // namespace heatwork::server
