#include "trade/sentences.h"

#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

#include "trade/edit.h"
#include "trade/mistake.h"
#include "trade/program.h"
#include "trade/reader.h"

namespace heatwork::trade {
namespace {

std::string in_german(std::string_view english) {
  return in_language(english, Language::german);
}

const std::string program = R"(format = 1
[program]
name = "dentine"
standby = "430 °C"
entry = "437 °C"
drying_time = "4 min"
closing_time = "3 min"
[[program.heating]]
to = "817 °C"
rate = "47 K/min"
)";

/// The mistake of a program in which one line is another, in German, with its place and the line it stands on.
std::string mistake_where(const std::string& line, const std::string& is) {
  std::string text = program;
  text.replace(text.find(line), line.size(), is);
  try {
    static_cast<void>(read_noun<Program>(source_of("p.toml", text)));
  } catch (const Mistake& mistake) {
    return in_german(mistake.what());
  }
  return "no mistake";
}

TEST(Sentences, OfReadersAreSaidInGermanWithTheirPlaceAndLine) {
  EXPECT_EQ(mistake_where("rate = \"47 K/min\"", "rate = \"47 K/min or so\""),
            "p.toml:10:8: rate: \"47 K/min or so\": die Einheit \"K/min or so\" passt nicht; eine Aufheizrate wird etwa so geschrieben: "
            "\"55 K/min\" (K/min, K/s, °C/min, °F/min)\nrate = \"47 K/min or so\"\n       ^");
  EXPECT_EQ(
      mistake_where("rate = \"47 K/min\"", "rate = 47"),
      "p.toml:10:8: rate: 47 hat keine Einheit; eine Aufheizrate wird in Anführungszeichen geschrieben, etwa \"55 K/min\"\nrate = 47\n"
      "       ^");
}

TEST(Sentences, TypicalMistakesAreSaidWhole) {
  const std::vector<std::pair<std::string, std::pair<std::string, std::string>>> typed = {
      {"standby: \"2430 °C\" liegt außerhalb des Bereichs; erlaubt ist 0 °C bis 1800 °C", {"standby", "2430 °C"}},
      {"standby: \"430\" hat keine Einheit; eine Temperatur wird etwa so geschrieben: \"850 °C\" (°C, °F)", {"standby", "430"}},
      {"standby: \"430 K\": eine Temperatur wird in °C oder °F geschrieben, etwa \"850 °C\"; K steht für Differenzen",
       {"standby", "430 K"}},
      {"standby: \"warm\" beginnt nicht mit einer Zahl; eine Temperatur wird etwa so geschrieben: \"850 °C\" (°C, °F)",
       {"standby", "warm"}},
      {"standby: hier steht nichts; eine Temperatur wird etwa so geschrieben: \"850 °C\" (°C, °F)", {"standby", ""}},
      {"standby: \"1,562 °F\" kann 1562 oder 1.562 bedeuten; mit Punkt oder ohne Komma schreiben", {"standby", "1,562 °F"}},
      {"standby: \"-400 °C\" liegt unter dem absoluten Nullpunkt (-273,15 °C)", {"standby", "-400 °C"}},
      {"drying_time: \"-4 min\" ist negativ; eine Dauer ist null oder mehr", {"drying_time", "-4 min"}},
      {"drying_time: \"4 mins\": die Einheit \"mins\" passt nicht; eine Dauer wird etwa so geschrieben: \"1 min 30 s\" (s, min, h, d); ist "
       "\"min\" gemeint?",
       {"drying_time", "4 mins"}},
      {"drying_time: \"1:75\" ist keine Uhrzeit; geschrieben wird \"1:30\" (1 min 30 s) oder \"1:05:00\" (1 h 5 min), die letzten Teile "
       "unter 60",
       {"drying_time", "1:75"}},
      {"drying_time: \"30 s 4 min\": die Teile einer Dauer gehen von lang nach kurz, nur der letzte hat Nachkommastellen, etwa \"1 min 30 "
       "s\"",
       {"drying_time", "30 s 4 min"}},
      {"drying_time: \"0.2 s\" ist feiner, als hier gespeichert wird; der kleinste Schritt ist 1 s", {"drying_time", "0.2 s"}},
      {"rate: \"47 °C\": die Einheit \"°C\" passt nicht; eine Aufheizrate wird etwa so geschrieben: \"55 K/min\" (K/min, K/s, °C/min, "
       "°F/min)",
       {"heating[1].rate", "47 °C"}},
      {"to: diese Heizstufe endet bei 400 °C, unter den 437 °C, bei denen sie beginnt; Heizstufen steigen, tiefere Temperaturen gehören zu "
       "den Kühlstufen [[program.cooling]]",
       {"heating[1].to", "400 °C"}},
      {"name: \"Dentin 1\" ist kein Name; erlaubt sind bis zu 60 Buchstaben a bis z, Ziffern, - und _", {"name", "Dentin 1"}},
      {"ein Programm hat kein \"trocknen\"; die Schlüssel stehen auf der Seite des Formats und in \"heatwork program show\"",
       {"trocknen", "4 min"}},
      {"ein Programm hat kein \"drying_tim\"; ist \"drying_time\" gemeint?", {"drying_tim", "4 min"}},
      {"heating ist eine Liste von Tabellen; Werte einer davon setzen, etwa heating[1].KEY", {"heating", "4 min"}},
  };
  for (const auto& [german, set] : typed) {
    std::string said = "no mistake";
    try {
      const auto noun = read_noun<Program>(source_of("p.toml", program));
      const std::string text = edited_text(noun, {{set.first, set.second}});
      static_cast<void>(read_noun<Program>(source_of("", text)));
    } catch (const Mistake& mistake) {
      said = in_german(mistake.sentence());
    }
    EXPECT_EQ(said, german) << set.first << " = " << set.second;
  }
}

TEST(Sentences, WhatIsMissingIsSaidWithWhatItMeans) {
  EXPECT_EQ(
      mistake_where("drying_time = \"4 min\"\n", ""),
      "p.toml:2:1: in [program] fehlt drying_time: Zeit, bevor sich die Brennkammer zu schließen beginnt, etwa drying_time = \"1 min 30 "
      "s\"\n[program]\n^");
  EXPECT_EQ(in_german("x.toml:3:2: the file holds a bench step already; an alloy goes into a file of its own"),
            "x.toml:3:2: die Datei enthält schon einen Arbeitsschritt; eine Legierung kommt in eine eigene Datei");
}

TEST(Sentences, OfTheLabAreSaidWhole) {
  const std::vector<std::pair<std::string, std::string>> sentences = {
      {"program dentine is kept already, in version 3; nothing was kept. \"heatwork program change dentine\" makes its next version.",
       "Programm dentine ist schon gespeichert, in Version 3; nichts wurde gespeichert. Eine Änderung macht die nächste Version "
       "(\"heatwork "
       "program change dentine\")."},
      {"program dentine is locked: till the audit; really. Nothing was kept; who may release unlocks it.",
       "Programm dentine ist gesperrt: till the audit; really. Nichts wurde gespeichert; wer freigeben darf, entsperrt."},
      {"Person \"ida\" may look but not fire; a person who may fire must do this.",
       "Die Person \"ida\" darf ansehen, aber nicht brennen; das muss eine Person tun, die brennen darf."},
      {"Firing monday is \"ended\", started 2026-11-25 18:11 (Europe/Berlin) by ida; only a planned firing is started. Give a new firing a "
       "name of its own.",
       "Der Brand monday ist \"beendet\", gestartet 2026-11-25 18:11 (Europe/Berlin) von ida; gestartet wird nur ein geplanter Brand. "
       "Einem "
       "neuen Brand einen eigenen Namen geben."},
      {"Furnace corner is in use: firing monday was started 2026-11-25 18:11 (UTC) and is not ended.",
       "Der Ofen corner ist belegt: der Brand monday wurde 2026-11-25 18:11 (UTC) gestartet und ist nicht beendet."},
      {"Lot k-417 is used up; nothing was kept.", "Die Charge k-417 ist aufgebraucht; nichts wurde gespeichert."},
      {"No bench step \"built\" is kept; did you mean \"build\"?",
       "Es ist kein Arbeitsschritt \"built\" gespeichert; ist \"build\" gemeint?"},
      {"No piece \"crown-61\" is kept in this store. Nothing was kept.",
       "In diesem Speicher ist keine Arbeit \"crown-61\". Nichts wurde gespeichert."},
      {"The program \"dentine\" was changed meanwhile: version 4 stands, yours was made from version 3. Nothing was kept.\nVersion 4 "
       "changed:\n  heating stage 1, hold: 2 min instead of 1 min\nYours would have changed:\n  label: added (x)\nLook at both, then "
       "change "
       "version 4.",
       "Programm \"dentine\" wurde inzwischen geändert: Version 4 steht da, die eigene kommt von Version 3. Nichts wurde gespeichert. "
       "Beide "
       "ansehen, dann Version 4 ändern."},
      {"Hold: \"1 minit\": the unit \"minit\" does not fit; a duration is written such as \"1 min 30 s\" (s, min, h, d).",
       "Haltezeit: \"1 minit\": die Einheit \"minit\" passt nicht; eine Dauer wird etwa so geschrieben: \"1 min 30 s\" (s, min, h, d)."},
      {"program \"dentin\" is found neither beside the file nor in the store nor among what ships; did you mean \"dentine\"?",
       "Programm \"dentin\" findet sich nicht: weder neben der Datei noch im Speicher noch unter dem Mitgelieferten; ist \"dentine\" "
       "gemeint?"},
      {"Heating stage 2 asks for 1040.0 °C; at full power the display of this furnace ends at 1012.5 °C.",
       "Heizstufe 2 verlangt 1040,0 °C; bei voller Leistung endet die Anzeige dieses Ofens bei 1012,5 °C."},
  };
  for (const auto& [english, german] : sentences) EXPECT_EQ(in_german(english), german);
}

TEST(Sentences, WhatNoPatternFitsStaysWholeInEnglish) {
  const std::string other = "p.toml:3:1: rate: the moon is out tonight";
  EXPECT_EQ(in_german(other), other);
  EXPECT_EQ(in_german("standby: \"2430 °C\" is out of range; allowed is 0 °C to 1800 °C, as ever; and more"),
            "standby: \"2430 °C\" is out of range; allowed is 0 °C to 1800 °C, as ever; and more");
  EXPECT_EQ(in_language("the file holds nothing", Language::english), "the file holds nothing");
}

}  // namespace
}  // namespace heatwork::trade
