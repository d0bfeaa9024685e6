#include "trade/form.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "trade/schema.h"

namespace heatwork::trade {
namespace {

const FormField* found(const std::vector<FormField>& fields, std::string_view path) {
  for (const FormField& field : fields) {
    if (field.path == path) return &field;
    if (const FormField* inner = found(field.fields, path)) return inner;
  }
  return nullptr;
}

TEST(Form, HoldsWhatTheFieldTableSays) {
  const auto form = form_of(Noun::program);
  const FormField* to = found(form, "heating.to");
  ASSERT_NE(to, nullptr);
  EXPECT_EQ(to->key, "to");
  EXPECT_EQ(to->unit, "°C");
  EXPECT_EQ(to->nature.kind, "a temperature");
  EXPECT_TRUE(to->required);
  EXPECT_EQ(found(form, "heating.rate")->unit, "K/min");
  EXPECT_EQ(found(form, "heating.hold")->unit, "min");
  EXPECT_EQ(found(form, "heating.hold")->default_text, "0 s");
  EXPECT_EQ(found(form, "name")->unit, "");
  const FormField* heating = found(form, "heating");
  EXPECT_EQ(heating->shape, FormField::Shape::list);
  EXPECT_EQ(heating->one, "heating stage");
  EXPECT_EQ(heating->at_least, 1U);
  EXPECT_EQ(found(form, "vacuum")->shape, FormField::Shape::group);
  EXPECT_EQ(found(form_of(Noun::firing), "piece.piece")->refers_to, Noun::piece);
  EXPECT_EQ(found(form_of(Noun::firing), "piece")->told_by, "piece");
}

/// The format page is another visitor of the same table: each of its rows is a field of the form, in the same number.
TEST(Form, TellsAPlaceOnTheEarthInMetres) {
  const auto form = form_of(Noun::furnace);
  EXPECT_EQ(found(form, "altitude")->nature.example, "210 m");
  EXPECT_EQ(found(form, "altitude")->unit, "m");
}

TEST(Form, HasEveryKeyOfTheFormatPage) {
  for (std::size_t i = 0; i < noun_words.size(); ++i) {
    const Noun noun = static_cast<Noun>(i);
    const std::string page = key_table_of(noun);
    const auto rows = [&] {
      std::size_t count = 0;
      for (auto at = page.find("\n| `"); at != std::string::npos; at = page.find("\n| `", at + 1)) ++count;
      return count;
    }();
    const auto count = [](const auto& self, const std::vector<FormField>& fields) -> std::size_t {
      std::size_t all = 0;
      for (const FormField& field : fields) {
        // An estimate is one row of the page.
        const bool one_row = std::any_of(field.fields.begin(), field.fields.end(), [](const auto& each) { return each.key == "standing"; });
        all += 1 + (one_row ? 0 : self(self, field.fields));
      }
      return all;
    };
    EXPECT_EQ(count(count, form_of(noun)), rows) << word(noun);
  }
}

}  // namespace
}  // namespace heatwork::trade
