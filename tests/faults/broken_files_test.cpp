// Broken files: each gives one located sentence, the user's own line and a caret, and nothing else. broken/NAME.toml is the file,
// broken/NAME.txt the whole message. What cannot well stand as a file (too long, no UTF-8) is made here.
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "trade/mistake.h"
#include "trade/reader.h"

namespace heatwork::trade {
namespace {

namespace fs = std::filesystem;

const fs::path folder = fs::path(HEATWORK_SOURCE_DIR) / "tests/faults/broken";

std::string text_of(const fs::path& path) {
  std::ifstream stream(path, std::ios::binary);
  std::stringstream text;
  text << stream.rdbuf();
  return text.str();
}

std::string message_of(std::string_view name, std::string_view text) {
  try {
    (void)read_any(source_of(name, text));
  } catch (const Mistake& mistake) {
    return mistake.what();
  }
  return "no mistake was found";
}

std::vector<fs::path> broken_files() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(folder))
    if (entry.path().extension() == ".toml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

const std::string good_start =
    "format = 1\n\n[program]\nname = \"odd\"\nstandby = \"397 C\"\nentry = \"431 C\"\ndrying_time = \"6 min\"\nclosing_time = \"2 min\"\n";
const std::string good_stage = "\n[[program.heating]]\nto = \"817 C\"\nrate = \"47 K/min\"\n";

TEST(BrokenFiles, AreManyEnough) {
  EXPECT_GE(broken_files().size(), 200U);
}

TEST(BrokenFiles, EachGivesItsWholeMessage) {
  for (const auto& file : broken_files()) {
    fs::path wanted = file;
    wanted.replace_extension(".txt");
    const std::string message = message_of(file.filename().string(), text_of(file)) + "\n";
    EXPECT_EQ(message, text_of(wanted));
  }
}

TEST(BrokenFiles, EachMessageIsOneSentenceThenTheLineAndACaret) {
  for (const auto& file : broken_files()) {
    const std::string message = message_of(file.filename().string(), text_of(file));
    const auto lines = std::count(message.begin(), message.end(), '\n');
    EXPECT_TRUE(lines == 0 || (lines == 2 && message.back() == '^')) << message;
    EXPECT_TRUE(message.starts_with(file.filename().string() + ":")) << message;
    const std::string sentence = message.substr(0, message.find('\n'));
    EXPECT_EQ(sentence.find(". "), std::string::npos) << "more than one sentence: " << sentence;
  }
}

TEST(BrokenFiles, TheUnbrokenOneIsRead) {
  EXPECT_EQ(read_any(source_of("good.toml", good_start + good_stage)), Noun::program);
}

TEST(BrokenText, EmptyFile) {
  EXPECT_EQ(message_of("x.toml", ""), "x.toml:1:1: the file lacks its first line, format = 1");
}

TEST(BrokenText, LineOfTenMegabytesIsRefusedAtOnce) {
  const std::string text = good_start + "note = \"" + std::string(10'000'000, 'x') + "\"\n" + good_stage;
  const auto start = std::chrono::steady_clock::now();
  EXPECT_EQ(message_of("x.toml", text), "x.toml:1:1: the file has 9.5 MB; files up to 1 MB are read\nformat = 1\n^");
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(2));
}

TEST(BrokenText, LongLineIsShownInPart) {
  const std::string text = good_start + "note = \"" + std::string(4001, 'x') + "\"\n" + good_stage;
  EXPECT_EQ(message_of("x.toml", text),
            "x.toml:9:8: note: the text has 4001 bytes; allowed are 4000\nnote = \"" + std::string(92, 'x') + "\n       ^");
}

TEST(BrokenText, MistakeFarIntoALongLineIsShownAroundItsPlace) {
  const std::string text = good_start + "note = \"" + std::string(300, 'x') + "\" tail\n" + good_stage;
  EXPECT_EQ(message_of("x.toml", text),
            "x.toml:9:311: this is no value; a quantity or a word is written in quotes and nothing after it, such as \"55 K/min\" or "
            "\"glaze\"\n" +
                std::string(48, 'x') + "\" tail\n" + std::string(50, ' ') + "^");
}

TEST(BrokenText, DegreeSignOfAnotherEncoding) {
  const std::string text =
      "format = 1\n\n[program]\nstandby = \"397 \xB0"
      "C\"\n";
  EXPECT_EQ(
      message_of("x.toml", text),
      "x.toml:4:16: byte 0xB0 is not UTF-8; save the file as UTF-8 (a degree sign may also be left out: \"850 C\")\nstandby = \"397 ?C\"\n"
      "               ^");
}

TEST(BrokenText, EndlessStages) {
  std::string text = good_start;
  for (int i = 0; i < 5000; ++i) text += good_stage;
  EXPECT_EQ(message_of("x.toml", text), "x.toml:106:1: heating: 5000 are written; allowed are 24\n[[program.heating]]\n^");
}

TEST(BrokenText, EndlessPiecesLayersAndTeeth) {
  std::string firing =
      "format = 1\n\n[firing]\nname = \"odd\"\nstage = \"dentine\"\ntray = \"light\"\nfurnace = \"corner\"\nprogram = \"odd\"\n";
  for (int i = 0; i < 5000; ++i) firing += "\n[[firing.piece]]\npiece = \"crown-" + std::to_string(i) + "\"\n";
  EXPECT_EQ(message_of("x.toml", firing), "x.toml:130:1: piece: 5000 are written; allowed are 40\n[[firing.piece]]\n^");
  std::string piece =
      "format = 1\n\n[piece]\nname = \"odd\"\nshape = \"crown\"\n\n[[piece.section]]\nname = \"thickest\"\nform = \"shell\"\ninside = "
      "\"open\"\n";
  for (int i = 0; i < 5000; ++i) piece += "\n[[piece.section.layer]]\nmaterial = \"zirconia-3y\"\nthickness = \"0.6 mm\"\n";
  EXPECT_EQ(message_of("x.toml", piece), "x.toml:60:1: layer: 5000 are written; allowed are 12\n[[piece.section.layer]]\n^");
  std::string teeth = "11";
  for (int i = 0; i < 5000; ++i) teeth += ", 11";
  EXPECT_EQ(message_of("x.toml", "format = 1\n\n[piece]\nname = \"odd\"\nshape = \"crown\"\nteeth = [" + teeth + "]\n").substr(0, 62),
            "x.toml:6:9: teeth: 5001 teeth are written; allowed are 16\nteet");
}

TEST(BrokenText, EndlessKeysAndALongOne) {
  std::string keys = good_start;
  for (int i = 0; i < 20'000; ++i) keys += "odd_" + std::to_string(i) + " = 1\n";
  EXPECT_TRUE(message_of("x.toml", keys).starts_with("x.toml:9:1: \"odd_0\" is not known in [program]; allowed are name, label"));
  const std::string message = message_of("x.toml", good_start + std::string(200'000, 'k') + " = 1\n");
  EXPECT_TRUE(message.starts_with("x.toml:9:1: \"" + std::string(60, 'k') + "...\" is not known in [program]")) << message.substr(0, 200);
  EXPECT_LT(message.size(), 600U);
}

TEST(BrokenText, OtherEncodings) {
  std::string wide;
  for (const char c : good_start + good_stage) wide += std::string(1, c) + '\0';
  EXPECT_TRUE(message_of("x.toml", "\xFF\xFE" + wide).starts_with("x.toml:1:1: byte 0xFF is not UTF-8; save the file as UTF-8"));
  EXPECT_EQ(message_of("x.toml", "\xEF\xBB\xBF" + good_start + good_stage), "no mistake was found") << "a byte-order mark is no mistake";
  EXPECT_TRUE(message_of("x.toml", "# \xED\xA0\x80\n" + good_start).starts_with("x.toml:1:3: byte 0xED is not UTF-8"));
  EXPECT_TRUE(message_of("x.toml", "# \xC0\xAF\n" + good_start).starts_with("x.toml:1:3: byte 0xC0 is not UTF-8"));
  EXPECT_TRUE(message_of("x.toml", good_start + "note = \"\xF4\x90\x80\x80\"\n").starts_with("x.toml:9:9: byte 0xF4 is not UTF-8"));
}

TEST(BrokenText, DeepTablesInBraces) {
  std::string deep = "1";
  for (int i = 0; i < 2000; ++i) deep = "{ a = " + deep + " }";
  EXPECT_TRUE(message_of("x.toml", "format = 1\nx = " + deep + "\n").find("tables and lists stand too deep inside one another") !=
              std::string::npos);
  std::string dotted = "a";
  for (int i = 0; i < 20'000; ++i) dotted += ".a";
  const std::string message = message_of("x.toml", "format = 1\n[program]\n" + dotted + " = 1\n");
  EXPECT_TRUE(message.starts_with("x.toml:3:18: tables and lists stand too deep inside one another")) << message.substr(0, 300);
}

TEST(BrokenText, ZeroByteAndDepth) {
  EXPECT_EQ(message_of("x.toml", std::string("format = 1\nname = \"o\0dd\"\n", 24)),
            "x.toml:2:10: there is an invisible control character here; retype the line\nname = \"o?dd\"\n         ^");
  const std::string deep = "format = 1\nx = " + std::string(5000, '[') + "\n";
  EXPECT_TRUE(
      message_of("x.toml", deep).starts_with("x.toml:2:261: tables and lists stand too deep inside one another; no file here needs more"))
      << message_of("x.toml", deep);
}

TEST(BrokenText, EveryCutOfAGoodFileIsReadOrRefusedInOnePiece) {
  const std::string text = good_start + good_stage;
  for (std::size_t size = 0; size < text.size(); ++size) {
    const std::string message = message_of("x.toml", text.substr(0, size));
    EXPECT_TRUE(message.starts_with("x.toml:") || message == "no mistake was found") << message;
  }
}

}  // namespace
}  // namespace heatwork::trade
