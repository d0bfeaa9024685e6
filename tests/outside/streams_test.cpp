// Pipes, terminals, full disks, readers that go away, and Ctrl-C.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "program.h"

namespace heatwork::outside {
namespace {

class Streams : public testing::Test {
 protected:
  void SetUp() override { ASSERT_EQ(run({"demo", folder_.at("lab")}).code, 0); }
  std::string firing() const { return folder_.at("lab/firing.toml"); }
  const Folder folder_;
};

TEST_F(Streams, ColourIsForTerminalsOnlyAndNoColourIsKept) {
  EXPECT_EQ(run({"rehearse", firing()}).out.find('\033'), std::string::npos);
  const Ended terminal = run({"rehearse", firing()}, {.terminal = true});
  EXPECT_LE(terminal.code, 1);
  EXPECT_NE(terminal.out.find('\033'), std::string::npos);
  EXPECT_EQ(run({"rehearse", firing()}, {.environment = {{"NO_COLOR", "1"}}, .terminal = true}).out.find('\033'), std::string::npos);
  EXPECT_EQ(run({"rehearse", firing()}, {.environment = {{"TERM", "dumb"}}, .terminal = true}).out.find('\033'), std::string::npos);
}

TEST_F(Streams, ATerminalWithoutUtf8GetsPlainLetters) {
  const Ended plain = run({"rehearse", firing()}, {.environment = {{"LC_ALL", "C"}, {"NO_COLOR", "1"}}, .terminal = true});
  for (const char c : plain.out) ASSERT_LT(static_cast<unsigned char>(c), 0x80);
  EXPECT_EQ(run({"rehearse", firing()}, {.environment = {{"LC_ALL", "C"}}}).out, run({"rehearse", firing()}).out)
      << "in a pipe the bytes are the same";
}

TEST_F(Streams, AFullDiskIsTheMachinesFault) {
  for (const std::vector<std::string>& words : {std::vector<std::string>{"--version"}, {"rehearse", firing()}, {"calculate", "--list"}}) {
    const Ended ended = run(words, {.output_into = "/dev/full"});
    EXPECT_EQ(ended.code, 3);
    EXPECT_EQ(ended.err, "Standard output cannot be written: No space left on device.\n");
  }
}

TEST_F(Streams, AReaderThatGoesAwayIsNoFault) {
  const Ended ended = run({"rehearse", firing(), "--json", "--traces"}, {.output_closed = true});
  EXPECT_LE(ended.code, 1);
  EXPECT_EQ(ended.signal, 0);
  EXPECT_EQ(ended.err, "");
}

/// Enough items that the answer takes seconds.
std::string long_question() {
  std::string text = "[";
  for (int i = 0; i < 30000; ++i) {
    text += (i > 0 ? "," : "") +
            std::string(
                R"({"class":"metal-ceramic-veneer","temperature_history":[[0,450],[500,930],[9000,930]],"pressure_history":[[0,101]]})");
  }
  return text + "]";
}

TEST_F(Streams, ControlCEndsCleanly) {
  folder_.write("long.json", long_question());
  const auto before = folder_.names();
  const Ended working = run({"calculate", "sintering", folder_.at("long.json")}, {.interrupt_after_ms = 400});
  EXPECT_EQ(working.code, 130);
  EXPECT_EQ(working.out, "");
  EXPECT_EQ(working.err, "\nStopped.\n");
  const Ended waiting = run({"calculate", "sintering"}, {.interrupt_after_ms = 300});
  EXPECT_EQ(waiting.code, 130);
  EXPECT_EQ(waiting.err, "\nStopped.\n");
  EXPECT_EQ(folder_.names(), before);
}

TEST_F(Streams, LongWorkShowsHowFarItIsOnATerminalOnly) {
  folder_.write("long.json", long_question());
  const Ended terminal = run({"calculate", "sintering", folder_.at("long.json")}, {.terminal = true, .interrupt_after_ms = 2500});
  EXPECT_NE(terminal.out.find(" of 30000"), std::string::npos) << terminal.out;
}

TEST_F(Streams, ATerminalIsNotWaitedForWhereAFileIsMissing) {
  const Ended ended = run({"calculate", "viscosity"}, {.terminal = true});
  EXPECT_EQ(ended.code, 2);
  EXPECT_NE(ended.out.find("a JSON object is missing"), std::string::npos);
}

TEST(Materials, AreListedAndShownWithTheirSources) {
  const Ended list = run({"material", "list"});
  EXPECT_EQ(list.code, 0);
  EXPECT_LE(widest(list.out), 100U);
  const auto all = nlohmann::json::parse(run({"material", "list", "--json"}).out);
  EXPECT_GT(all["materials"].size(), 8U);
  for (const auto& each : all["materials"]) {
    const std::string name = each["name"];
    const Ended text = run({"material", "show", name});
    EXPECT_EQ(text.code, 0);
    EXPECT_LE(widest(text.out), 100U) << name;
    const auto shown = nlohmann::json::parse(run({"material", "show", name, "--json"}).out);
    EXPECT_FALSE(shown["properties"].empty()) << name;
    for (const auto& property : shown["properties"]) {
      EXPECT_FALSE(property["source"].get<std::string>().empty()) << name;
      EXPECT_NE(text.out.find(property["property"].get<std::string>()), std::string::npos);
      if (property["standing"] == "none found") {
        EXPECT_TRUE(property["value"].is_null());
      } else {
        EXPECT_LE(property["low"], property["value"]);
        EXPECT_LE(property["value"], property["high"]);
      }
    }
  }
}

TEST(Schemas, OfEveryKindOfFileAreJson) {
  const Ended kinds = run({"schema"});
  EXPECT_EQ(kinds.code, 0);
  EXPECT_LE(widest(kinds.out), 100U);
  for (const char* noun : {"program", "instruction", "furnace", "tray", "support", "material", "liquid", "piece", "firing"}) {
    EXPECT_NE(kinds.out.find(std::string("  ") + noun + "\n"), std::string::npos);
    const Ended schema = run({"schema", noun});
    EXPECT_EQ(schema.code, 0);
    EXPECT_TRUE(nlohmann::json::parse(schema.out, nullptr, false).is_object()) << noun;
  }
}

}  // namespace
}  // namespace heatwork::outside
