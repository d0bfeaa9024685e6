#include "desk/lab/settings.h"

#include <gtest/gtest.h>

#include <map>

#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

Variables variables(std::map<std::string, std::string> values) {
  return [values](const char* name) {
    const auto found = values.find(name);
    return found == values.end() ? std::string() : found->second;
  };
}

std::string mistake_in(const std::string& lines) {
  try {
    read_settings("settings.toml", lines);
  } catch (const trade::Mistake& mistake) {
    const std::string said = mistake.what();
    return said.substr(0, said.find('\n'));
  }
  return "none";
}

TEST(Settings, AreReadWhole) {
  const Settings read = read_settings("settings.toml",
                                      "format = 1\n[settings]\nstore = \"postgresql://lab@server/heatwork\"\nperson = \"mk\"\n"
                                      "zone = \"Europe/Berlin\"\nlanguage = \"de\"\nunits = \"fahrenheit\"\nbackups = \"/srv/copies\"\n"
                                      "backups_every = \"24 h\"\nbackups_kept = 14\n");
  EXPECT_EQ(read.store, "postgresql://lab@server/heatwork");
  EXPECT_EQ(read.person, "mk");
  EXPECT_EQ(read.zone, "Europe/Berlin");
  EXPECT_EQ(read.language, "de");
  EXPECT_EQ(read.units, "fahrenheit");
  EXPECT_EQ(read.backups, "/srv/copies");
  EXPECT_EQ(read.backups_every, "24 h");
  EXPECT_EQ(read.backups_kept, 14);
}

TEST(Settings, MistakesNameTheirPlaceAndWhatIsAllowed) {
  EXPECT_EQ(mistake_in("[settings]\n"), "settings.toml:1:1: a file of settings begins with format = 1");
  const std::string start = "format = 1\n[settings]\n";
  EXPECT_EQ(mistake_in(start + "persn = \"mk\"\n"),
            "settings.toml:3:1: \"persn\" is no setting (did you mean person?); allowed are store, person, zone, language, units, backups, "
            "backups_every, backups_kept");
  EXPECT_EQ(mistake_in(start + "units = \"kelvin\"\n"),
            "settings.toml:3:9: units is \"kelvin\"; allowed are \"celsius\" and \"fahrenheit\"");
  EXPECT_EQ(mistake_in(start + "zone = \"Europe/Nowhere\"\n"),
            "settings.toml:3:8: this machine knows no time zone \"Europe/Nowhere\"; one is \"Europe/Berlin\", another \"UTC\"");
  EXPECT_EQ(mistake_in(start + "backups_every = \"10 s\"\n"),
            "settings.toml:3:17: backups_every is \"10 s\"; it is a duration of at least 1 min, such as \"24 h\"");
  EXPECT_EQ(mistake_in(start + "backups_kept = 0\n"),
            "settings.toml:3:16: backups_kept is 0; it is a whole number from 1 to 10000, without quotes");
  EXPECT_EQ(mistake_in(start + "store = \"\"\n"), "settings.toml:3:9: store is empty; leave the line out instead");
  EXPECT_EQ(mistake_in("format = 1\n[setings]\n"),
            "settings.toml:2:2: \"setings\" has no place in a file of settings; allowed are format and [settings]");
}

TEST(Settings, StandInTheFolderThatIsNamedElseAtHomeElseWithTheService) {
  EXPECT_EQ(settings_file(variables({{"XDG_CONFIG_HOME", "/c"}, {"HOME", "/h"}})), "/c/heatwork/settings.toml");
  EXPECT_EQ(settings_file(variables({{"XDG_CONFIG_HOME", "c"}, {"HOME", "/h"}})), "/h/.config/heatwork/settings.toml");
  EXPECT_EQ(settings_file(variables({})), "/etc/heatwork/settings.toml");
}

TEST(Settings, TheStoreIsThatAskedForElseOfTheVariableElseOfTheSettingElseAmongTheData) {
  Settings set;
  set.store = "s";
  const auto all = variables({{"HEATWORK_STORE", "v"}, {"XDG_DATA_HOME", "/d"}, {"HOME", "/h"}});
  EXPECT_EQ(store_address("a", set, all), "a");
  EXPECT_EQ(store_address("", set, all), "v");
  EXPECT_EQ(store_address("", set, variables({{"XDG_DATA_HOME", "/d"}})), "s");
  EXPECT_EQ(store_address("", {}, variables({{"XDG_DATA_HOME", "/d"}, {"HOME", "/h"}})), "/d/heatwork/lab.sqlite");
  EXPECT_EQ(store_address("", {}, variables({{"HOME", "/h"}})), "/h/.local/share/heatwork/lab.sqlite");
  EXPECT_EQ(store_address("", {}, variables({})), "/var/lib/heatwork/lab.sqlite");
}

}  // namespace
}  // namespace heatwork::desk
