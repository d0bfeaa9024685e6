// One statement in SQL to an open store: values bound by order, columns read by type, every engine's error told as a StoreError.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include "records/inside.h"

namespace heatwork::records {

/// A question mark in the text stands for the next value. A text bound must live until the statement has run.
///   Statement s(inside, "select id, version from heads where kind = ?");
///   s.bind(kind).into(id).into(version);
///   while (s.next()) ...
class Statement {
 public:
  Statement(Store::Inside& inside, std::string_view text);
  ~Statement();
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;

  Statement& bind(const std::string& value);
  Statement& bind(std::string&& value) = delete;
  Statement& bind(std::int64_t value);
  Statement& into(std::string& column);
  Statement& into(std::int64_t& column);
  Statement& into(int& column);

  /// Runs it at the first call. False: no further row.
  bool next();
  /// Runs it; rows, if any, are not read. Values may be bound and it may be run again.
  void run();

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace heatwork::records
