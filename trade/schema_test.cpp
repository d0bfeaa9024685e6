#include "trade/schema.h"

#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "trade/reader.h"

namespace heatwork::trade {
namespace {

using Json = nlohmann::json;

TEST(Schema, IsStatedForEveryKindAndClosedToUnknownKeys) {
  for (const auto kind : noun_words) {
    const Json schema = Json::parse(schema_of(*noun_of(kind)));
    EXPECT_EQ(schema["properties"]["format"]["const"], 1) << kind;
    EXPECT_EQ(schema["additionalProperties"], false) << kind;
    const Json& noun = schema["properties"][std::string(kind)];
    EXPECT_EQ(noun["additionalProperties"], false) << kind;
    EXPECT_TRUE(noun["properties"].contains("name")) << kind;
    EXPECT_FALSE(noun["required"].empty()) << kind;
    for (const auto& [key, property] : noun["properties"].items()) EXPECT_TRUE(property.contains("description")) << kind << " " << key;
  }
}

TEST(Schema, SaysWhatTheReaderSays) {
  const Json program = Json::parse(schema_of(Noun::program))["properties"]["program"];
  const Json& heating = program["properties"]["heating"];
  EXPECT_EQ(heating["minItems"], 1);
  EXPECT_EQ(heating["maxItems"], 24);
  EXPECT_EQ(heating["items"]["properties"]["hold"]["default"], "0 s");
  EXPECT_EQ(heating["items"]["required"], Json::parse(R"(["to", "rate"])"));
  const Json furnace = Json::parse(schema_of(Noun::furnace))["properties"]["furnace"]["properties"];
  EXPECT_EQ(furnace["ability"]["properties"]["heating_stages"]["maximum"], 24);
  EXPECT_EQ(furnace["ability"]["properties"]["hold_starts"]["enum"], Json::parse(R"(["asked reaches", "display reaches"])"));
  EXPECT_EQ(furnace["ability"]["properties"]["waits_for_vacuum"]["type"], "boolean");
}

/// Each format page holds an example that is read, and the table of keys exactly as the reader has it.
TEST(FormatPages, HoldAnExampleThatIsReadAndTheReadersOwnKeys) {
  for (const auto kind : noun_words) {
    const std::string path = std::string(HEATWORK_SOURCE_DIR) + "/docs/formats/" + std::string(kind) + ".md";
    std::stringstream page_text;
    page_text << std::ifstream(path).rdbuf();
    const std::string page = page_text.str();
    EXPECT_NE(page.find(key_table_of(*noun_of(kind))), std::string::npos) << path << " does not hold this table:\n"
                                                                          << key_table_of(*noun_of(kind));
    const auto start = page.find("```toml\n");
    ASSERT_NE(start, std::string::npos) << path;
    const std::string example = page.substr(start + 8, page.find("```", start + 8) - start - 8);
    EXPECT_EQ(read_any(source_of(path, example)), *noun_of(kind));
  }
}

}  // namespace
}  // namespace heatwork::trade
