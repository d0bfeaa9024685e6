#include "trade/keyed_values.h"

#include <gtest/gtest.h>

#include "trade/edit.h"
#include "trade/examples_for_tests.h"
#include "trade/reader.h"
#include "trade/writer.h"

namespace heatwork::trade {
namespace {

template <class T>
T read(const std::string& text) {
  ReadingContext context;
  context.ambient = quantity::millibars(1013);
  return read_noun<T>(source_of("x.toml", text), context);
}

const KeyedValue* of(const std::vector<KeyedValue>& values, std::string_view key) {
  for (const KeyedValue& value : values)
    if (value.key == key) return &value;
  return nullptr;
}

TEST(KeyedValues, TellKeyTypedTextAndNumber) {
  const auto values =
      keyed_values(read<Tray>("format = 1\n[tray]\nname = \"light\"\nlabel = \"the \\\"light\\\" one\"\nmass = \"0.0117 kg\"\n"
                              "material = \"alumina-fibre\"\ndiameter = \"6,9 cm\"\nthickness = \"7.8 mm\"\n"));
  ASSERT_NE(of(values, "mass"), nullptr);
  EXPECT_EQ(of(values, "mass")->typed, "0.0117 kg");
  EXPECT_EQ(of(values, "mass")->text, "11.7 g");
  EXPECT_DOUBLE_EQ(of(values, "mass")->si.value(), 0.0117);
  EXPECT_EQ(of(values, "diameter")->text, "69 mm");
  EXPECT_EQ(of(values, "label")->text, "the \"light\" one");
  EXPECT_FALSE(of(values, "label")->si);
  EXPECT_EQ(of(values, "note"), nullptr);
}

TEST(KeyedValues, ListsAreToldByPlaceAndWithCommas) {
  const auto values = keyed_values(read<Case>(example_of_page(Noun::dental_case)));
  EXPECT_EQ(values.front().key, "name");
  ASSERT_NE(of(values, "teeth"), nullptr);
  EXPECT_EQ(of(values, "teeth")->text.find('['), std::string::npos);
  const auto program = keyed_values(read<Program>(example_of_page(Noun::program)));
  ASSERT_NE(of(program, "heating[1].to"), nullptr);
  EXPECT_GT(of(program, "heating[1].to")->si.value(), 500) << "a temperature is in kelvin";
}

/// Whatever a page shows can be sent back: all values of a noun as edits of a new one give the same noun.
TEST(KeyedValues, AsEditsMakeTheSameNoun) {
  for (std::size_t i = 0; i < noun_words.size(); ++i) {
    with_type_of(static_cast<Noun>(i), [&]<class T>(std::type_identity<T>) {
      const T noun = read<T>(example_of_page(static_cast<Noun>(i)));
      std::vector<Edit> edits;
      for (const KeyedValue& value : keyed_values(noun))
        if (value.key != "name") edits.push_back({value.key, value.text});
      EXPECT_EQ(write_noun(read<T>(new_text<T>(noun.name, edits))), write_noun(noun));
    });
  }
}

}  // namespace
}  // namespace heatwork::trade
