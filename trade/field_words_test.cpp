#include "trade/field_words.h"

#include <gtest/gtest.h>

#include <set>

#include "trade/alloy.h"
#include "trade/field.h"
#include "trade/firing.h"

namespace heatwork::trade {
namespace {

const Words& english = words_of(Language::english);
const Words& german = words_of(Language::german);

/// Walks every field of a noun, and every word that may stand in it.
class EveryField : public Fields {
 public:
  explicit EveryField(Noun noun) : noun_(noun) {}
  void value(const FieldInfo& info, Slot& slot) override {
    const std::string path = before_ + std::string(info.key);
    said(path, info.meaning);
    const Nature nature = slot.nature();
    EXPECT_NE(kind_in(german, nature.kind), nature.kind) << path << " has no German kind";
    for (const std::string& word : nature.words) {
      const bool own = german.has("choice_of." + table_key(noun_) + "." + path + "." + word_key(word));
      EXPECT_TRUE(own || german.has("choice." + word_key(word)) || german.has("noun." + word_key(word)))
          << path << ": " << word << " has no German";
    }
    ++count;
  }
  void group(const Group& group) override {
    group.make({});
    inside(group.info, [&] { group.describe(*this); });
  }
  void list(const List& list) override {
    list.add({});
    const std::string path = before_ + std::string(list.info.key);
    const bool is_plain = list.one.word.empty() && !list.info.key.ends_with("s");
    EXPECT_TRUE(is_plain || field_word(english, noun_, path, "one")) << path << ": one of it has no English";
    EXPECT_TRUE(field_word(german, noun_, path, "one")) << table_key(noun_) << " " << path << ": one of it has no German";
    inside(list.info, [&] { list.describe(*this, 0); });
  }

  int count = 0;

 private:
  template <class Inner>
  void inside(const FieldInfo& info, Inner inner) {
    const std::string path = before_ + std::string(info.key), before = before_;
    said(path, info.meaning);
    before_ = path + ".";
    inner();
    before_ = before;
  }
  void said(const std::string& path, std::string_view meaning) {
    const std::string where = table_key(noun_) + "." + path;
    EXPECT_TRUE(field_word(english, noun_, path, "label")) << where << " has no English label";
    EXPECT_FALSE(field_word(english, noun_, path, "meaning")) << where << ": its English meaning stands in the field table already";
    EXPECT_TRUE(field_word(german, noun_, path, "label")) << where << " has no German label";
    const auto in_german = field_word(german, noun_, path, "meaning");
    ASSERT_TRUE(in_german) << where << " has no German meaning";
    EXPECT_NE(*in_german, meaning) << where;
  }

  Noun noun_;
  std::string before_;
};

TEST(FieldWords, EveryFieldOfEveryNounIsSaidInBothLanguages) {
  int count = 0;
  for (std::size_t i = 0; i < noun_words.size(); ++i) {
    const auto noun = static_cast<Noun>(i);
    EXPECT_NE(noun_in(german, noun), "") << word(noun);
    for (const char* table : {"noun.", "noun_with_article.", "noun_as_object.", "nouns."})
      EXPECT_TRUE(german.has(table + table_key(noun))) << word(noun) << " has no German " << table;
    with_type_of(noun, [&]<class T>(std::type_identity<T>) {
      T blank{};
      EveryField fields(noun);
      describe(fields, blank);
      count += fields.count;
    });
  }
  EXPECT_GT(count, 300);
}

TEST(FieldWords, AreSoughtFromTheFieldItselfToWhatAllHave) {
  EXPECT_EQ(field_word(german, Noun::program, "heating.rate", "label"), "Aufheizrate");
  EXPECT_EQ(field_word(german, Noun::program, "heating", "one"), "Heizstufe");
  EXPECT_EQ(field_word(german, Noun::program, "note", "label"), "Notiz");
  EXPECT_EQ(field_word(german, Noun::lock, "name", "meaning"), "Art und Name des Gesperrten, etwa program-dentine");
  EXPECT_EQ(field_word(german, Noun::material, "properties.viscosity_A.source", "label"), "Quelle");
  EXPECT_EQ(field_word(english, Noun::material, "properties.viscosity_A", "label"), "Viscosity, A");
  EXPECT_FALSE(field_word(german, Noun::program, "no_such_field", "label"));
}

TEST(FieldWords, ChoicesAndKindsAreSaidOrStayAsTheyAre) {
  EXPECT_EQ(choice_in(german, Noun::firing, "record.state", "called off"), "abgesagt");
  EXPECT_EQ(choice_in(english, Noun::firing, "record.state", "called off"), "called off");
  EXPECT_EQ(choice_in(german, Noun::bench_step, "work", "glaze"), "Glasur auftragen");
  EXPECT_EQ(choice_in(german, Noun::firing, "stage", "glaze"), "Glanzbrand");
  EXPECT_EQ(choice_in(german, Noun::lock, "of_kind", "bench step"), "Arbeitsschritt");
  EXPECT_EQ(kind_in(german, "a number in W/(m2 K)"), "eine Zahl in W/(m2 K)");
  EXPECT_EQ(kind_in(german, "teeth by ISO 3950"), "Zähne nach ISO 3950");
  EXPECT_EQ(kind_in(english, "a temperature"), "a temperature");
}

}  // namespace
}  // namespace heatwork::trade
