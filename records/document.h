// What is kept: a document of a kind under a name, every version of it for ever, with its hash and what it is found by.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace heatwork::records {

/// One version of one document. A stored version never changes.
struct Document {
  std::string kind;   ///< "program", "firing", "rehearsal" ...
  std::string id;     ///< its name within the kind
  int version = 0;    ///< from 1, without gaps
  std::string body;   ///< canonical bytes, UTF-8 without NUL
  std::string typed;  ///< as the person typed it, where that differs in form; may be empty
  std::string hash;   ///< document_hash of the rest, 64 hexadecimal digits
};

/// BLAKE2b-256 over kind, id, version, body and typed, each with its length before it. [64 hexadecimal digits]
std::string document_hash(const Document& document);

/// One piece in one document, with what it met there: a firing has a row a piece, a bench step a row a piece and lot.
/// Empty where the document says nothing of it.
struct Use {
  std::int64_t at_ms = 0;  ///< when it happened, milliseconds since 1970-01-01 UTC
  std::string piece;
  std::string furnace;
  std::string program;  ///< "name@version"
  std::string lot;
  bool operator==(const Use&) const = default;
};

/// A day something falls due.
struct Due {
  std::string on;  ///< 2026-12-01
  std::string what;
  bool operator==(const Due&) const = default;
};

/// What the newest version of a document is found by; computed from its bytes alone, so that it can be proven.
struct Index {
  std::string label;       ///< for people
  std::string state;       ///< "planned", "started", "good" ...; may be empty
  std::string words;       ///< lower-case text that a search looks through
  std::int64_t at_ms = 0;  ///< when what it tells of happened; 0: it tells of nothing that happened
  std::vector<Use> uses;
  std::vector<Due> dues;
  bool operator==(const Index&) const = default;
};

/// Reads the index off a document's bytes. Must give the same for the same bytes, for ever or until a migration re-indexes.
/// Called by several threads at once. Errors: std::exception where the bytes cannot be read.
using IndexOf = std::function<Index(const Document&)>;

}  // namespace heatwork::records
