#include "server/router.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace heatwork::server {
namespace {

Route route(std::string_view method, std::string_view path, std::string_view id) {
  return {method, path, id, Needs::sign_in, [](const Asked&) { return Answer{}; }};
}

TEST(Router, FindsByMethodAndPath) {
  const Router router({route("GET", "/api/documents/{kind}/{name}", "one"), route("GET", "/api/documents/{kind}", "all"),
                       route("PUT", "/api/documents/{kind}/{name}", "change"), route("GET", "/api/documents/lot/{name}", "lot")});
  const auto found = router.find("GET", "/api/documents/program/morning%20%C3%A4");
  ASSERT_NE(found.route, nullptr);
  EXPECT_EQ(found.route->id, "one");
  EXPECT_EQ(found.values.at("kind"), "program");
  EXPECT_EQ(found.values.at("name"), "morning ä");
  EXPECT_EQ(router.find("HEAD", "/api/documents/program").route->id, "all");
  EXPECT_EQ(router.find("GET", "/api/documents/lot/x").route->id, "lot") << "a fixed part goes before a place";
  const auto other = router.find("DELETE", "/api/documents/program/x");
  EXPECT_EQ(other.route, nullptr);
  EXPECT_EQ(other.other, (std::vector<std::string_view>{"GET", "PUT"}));
  for (const char* none : {"/api/documents/", "/api/documents//x", "/api/documents/program/x/", "/api/documents/program/%2", "", "x", "*",
                           "/api/documents/program/%00", "/api/documents/program/%ff", "//api/documents/program"})
    EXPECT_EQ(router.find("GET", none).route, nullptr) << none;
}

TEST(Router, APathIsTakenApartBeforeItIsDecoded) {
  const Router router({route("GET", "/api/documents/{kind}/{name}", "one")});
  EXPECT_EQ(router.find("GET", "/api/documents/program/a%2Fb").values.at("name"), "a/b");
  EXPECT_EQ(router.find("GET", "/api/documents/program/..").values.at("name"), "..");
  EXPECT_EQ(router.find("GET", "/api/documents%2Fprogram/x").route, nullptr);
}

TEST(Router, RefusesTheSameRouteTwice) {
  EXPECT_THROW(Router({route("GET", "/a/{x}", "one"), route("GET", "/a/{y}", "two")}), std::logic_error);
  EXPECT_THROW(Router({route("GET", "/a", "one"), route("GET", "/b", "one")}), std::logic_error);
}

TEST(Query, IsDecoded) {
  EXPECT_EQ(decoded_query("word=a+b%26&page=2")->at("word"), "a b&");
  EXPECT_EQ(decoded_query("word")->at("word"), "");
  for (const char* wrong : {"a=%", "a=%zz", "a=1&a=2", "=1", "a=%0a", "a=%ff"}) EXPECT_FALSE(decoded_query(wrong)) << wrong;
}

}  // namespace
}  // namespace heatwork::server
