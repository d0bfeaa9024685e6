#include "records/address.h"

#include <gtest/gtest.h>

#include "records/store_error.h"

namespace heatwork::records {
namespace {

TEST(Address, a_path_is_sqlite_and_a_url_is_postgresql) {
  for (const char* text : {"lab.sqlite", "sqlite:lab.sqlite", "sqlite://lab.sqlite"}) {
    EXPECT_EQ(read_address(text).engine, Engine::sqlite) << text;
    EXPECT_EQ(read_address(text).where, "lab.sqlite") << text;
  }
  EXPECT_EQ(read_address("sqlite:///var/lib/lab.sqlite").where, "/var/lib/lab.sqlite");
  EXPECT_EQ(read_address("/var/lib/a b.sqlite").where, "/var/lib/a b.sqlite");
  const Address server = read_address("postgresql://mk@db.lab:5433/heatwork?sslmode=verify-full");
  EXPECT_EQ(server.engine, Engine::postgresql);
  EXPECT_EQ(server.where, "postgresql://mk@db.lab:5433/heatwork?sslmode=verify-full");
  EXPECT_EQ(read_address("postgres://db/heatwork").engine, Engine::postgresql);
}

TEST(Address, a_password_is_never_shown) {
  const auto shown = [](const char* text) { return read_address(text).shown(); };
  EXPECT_EQ(shown("postgresql://mk:secret@db:5433/lab"), "postgresql://mk@db:5433/lab");
  EXPECT_EQ(shown("postgresql://mk:se@cr:et@db/lab"), "postgresql://mk@db/lab");
  EXPECT_EQ(shown("postgresql://db/lab?password=secret&sslmode=require"), "postgresql://db/lab?sslmode=require");
  EXPECT_EQ(shown("postgresql://db/lab?sslmode=require&PASSWORD=secret"), "postgresql://db/lab?sslmode=require");
  EXPECT_EQ(shown("postgresql://db/lab?p%61ssword=secret"), "postgresql://db/lab");
  EXPECT_EQ(shown("postgresql://db/lab?sslpassword=secret"), "postgresql://db/lab");
  EXPECT_EQ(shown("postgresql://mk@db/lab"), "postgresql://mk@db/lab");
  EXPECT_EQ(shown("lab.sqlite"), "lab.sqlite");
}

TEST(Address, what_is_no_address_is_refused) {
  for (const char* text :
       {"", "sqlite:", "mysql://db/lab", "postgresql://", "postgresql://db/my lab", "a\nb.sqlite", "folder/", ":memory:"}) {
    try {
      read_address(text);
      ADD_FAILURE() << text;
    } catch (const StoreError& error) {
      EXPECT_EQ(error.problem(), StoreProblem::bad_address);
      EXPECT_NE(std::string(error.what()).find("allowed is a path such as lab.sqlite, or postgresql://user@host:port/database."),
                std::string::npos);
    }
  }
}

}  // namespace
}  // namespace heatwork::records
