#include "trade/schema.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "trade/examples_for_tests.h"
#include "trade/reader.h"

namespace heatwork::trade {
namespace {

using Json = nlohmann::json;

TEST(Schema, IsStatedForEveryKindAndClosedToUnknownKeys) {
  for (const auto kind : noun_words) {
    const Json schema = Json::parse(schema_of(*noun_of(kind)));
    EXPECT_EQ(schema["properties"]["format"]["const"], 1) << kind;
    EXPECT_EQ(schema["additionalProperties"], false) << kind;
    const Json& noun = schema["properties"][table_key(*noun_of(kind))];
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
    const Noun noun = *noun_of(kind);
    const std::string path = path_of_page(noun);
    EXPECT_NE(text_of_page(noun).find(key_table_of(noun)), std::string::npos) << path << " does not hold this table:\n"
                                                                              << key_table_of(noun);
    EXPECT_EQ(read_any(source_of(path, example_of_page(noun))), noun);
  }
}

}  // namespace
}  // namespace heatwork::trade
