#include "server/description.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

const desk::Json& at(const desk::Json& json, std::initializer_list<std::string_view> keys) {
  const desk::Json* found = &json;
  for (const std::string_view key : keys) {
    found = found->find(key);
    if (found == nullptr) throw std::runtime_error("the description has no " + std::string(key));
  }
  return *found;
}

std::string in_capitals(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](unsigned char letter) { return std::toupper(letter); });
  return text;
}

/// "GET /api/today" by operationId.
std::map<std::string, std::string> described() {
  std::map<std::string, std::string> all;
  for (const auto& path : *at(description(), {"paths"}).object())
    for (const auto& method : *path.value.object()) {
      const auto [_, is_new] = all.emplace(*at(method.value, {"operationId"}).text(), in_capitals(method.key) + " " + path.key);
      EXPECT_TRUE(is_new) << path.key;
    }
  return all;
}

TEST(Description, IsThatOfEveryRouteAndOfNothingElse) {
  std::map<std::string, std::string> routes;
  for (const Route& route : all_routes()) routes.emplace(route.id, std::string(route.method) + " " + std::string(route.path));
  EXPECT_EQ(described(), routes);
}

/// What a parameter is called; "$ref" leads to components/parameters.
std::string name_of(const desk::Json& parameter) {
  const desk::Json* ref = parameter.find("$ref");
  if (ref == nullptr) return *at(parameter, {"name"}).text();
  const std::string& to = *ref->text();
  return *at(description(), {"components", "parameters", to.substr(to.rfind('/') + 1), "name"}).text();
}

TEST(Description, NamesEveryPlaceOfAPathAndTheTokenOfEveryWrite) {
  for (const auto& path : *at(description(), {"paths"}).object())
    for (const auto& method : *path.value.object()) {
      std::set<std::string> names;
      if (const desk::Json* parameters = method.value.find("parameters")) {
        for (const desk::Json& each : *parameters->list()) EXPECT_TRUE(names.insert(name_of(each)).second) << path.key;
      }
      for (auto open = path.key.find('{'); open != std::string::npos; open = path.key.find('{', open + 1))
        EXPECT_TRUE(names.contains(path.key.substr(open + 1, path.key.find('}', open) - open - 1))) << path.key;
      const bool without_log_in = method.value.find("security") != nullptr;
      EXPECT_EQ(names.contains("Heatwork-Token"), method.key != "get" && !without_log_in) << method.key << " " << path.key;
    }
}

}  // namespace
}  // namespace heatwork::server
