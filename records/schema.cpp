#include "records/schema.h"

namespace heatwork::records {

namespace {

// Both engines compare text byte by byte, so that both give the same order; SQLite does so by itself.
constexpr const char* format_1[] = {
    "create table about (key TEXT not null primary key, value TEXT not null) STRICT",
    "create table documents (kind TEXT not null, id TEXT not null, version NUMBER not null, body TEXT not null, typed TEXT not null, "
    "hash TEXT not null, primary key (kind, id, version)) STRICT",
    "create table heads (kind TEXT not null, id TEXT not null, version NUMBER not null, label TEXT not null, state TEXT not null, "
    "words TEXT not null, at_ms NUMBER not null, primary key (kind, id)) STRICT",
    "create index heads_by_state on heads (kind, state, id) where state <> ''",
    "create table uses (kind TEXT not null, id TEXT not null, row NUMBER not null, at_ms NUMBER not null, piece TEXT not null, "
    "furnace TEXT not null, program TEXT not null, lot TEXT not null, primary key (kind, id, row)) STRICT",
    "create index uses_by_piece on uses (piece, at_ms, kind, id, row) where piece <> ''",
    // In order of time for the first page, in order of piece for the count: neither sorts what it goes through.
    "create index uses_by_furnace on uses (furnace, at_ms, piece) where furnace <> '' and piece <> ''",
    "create index pieces_by_furnace on uses (furnace, piece, at_ms) where furnace <> '' and piece <> ''",
    "create index uses_by_program on uses (program, at_ms, piece) where program <> '' and piece <> ''",
    "create index pieces_by_program on uses (program, piece, at_ms) where program <> '' and piece <> ''",
    "create index uses_by_lot on uses (lot, at_ms, piece) where lot <> '' and piece <> ''",
    "create index pieces_by_lot on uses (lot, piece, at_ms) where lot <> '' and piece <> ''",
    "create table trail (sequence NUMBER not null primary key, at_utc TEXT not null, zone TEXT not null, person TEXT not null, "
    "known_by TEXT not null, action TEXT not null, kind TEXT not null, id TEXT not null, version NUMBER not null, "
    "document_hash TEXT not null, replaced_hash TEXT not null, reason TEXT not null, previous TEXT not null, hash TEXT not null) STRICT",
    "create index trail_by_document on trail (kind, id, sequence)",
    "create table personal (code TEXT not null primary key, salt TEXT not null, body TEXT not null) STRICT",
    "create table photos (hash TEXT not null primary key, bytes_base64 TEXT not null) STRICT",
};

constexpr const char* format_2[] = {
    "create table dues (kind TEXT not null, id TEXT not null, row NUMBER not null, due_on TEXT not null, what TEXT not null, "
    "primary key (kind, id, row)) STRICT",
    "create index dues_by_day on dues (due_on, kind, id, row)",
};

constexpr const char* format_3[] = {
    // What tells of a furnace and of no piece, a check of it above all.
    "create index checks_by_furnace on uses (furnace, at_ms, kind, id, row) where furnace <> '' and piece = ''",
    // How many documents there are is told without going through them.
    "create table tallies (kind TEXT not null, state TEXT not null, documents NUMBER not null, primary key (kind, state)) STRICT",
};

std::string replaced(std::string text, std::string_view from, std::string_view to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) text.replace(at, from.size(), to);
  return text;
}

std::string in_words_of(Engine engine, std::string text) {
  const bool sqlite = engine == Engine::sqlite;
  text = replaced(std::move(text), "NUMBER", sqlite ? "integer" : "bigint");
  text = replaced(std::move(text), "TEXT", sqlite ? "text" : "text collate \"C\"");
  return replaced(std::move(text), " STRICT", sqlite ? " strict" : "");
}

}  // namespace

std::vector<std::string> statements_of_step(int to_format, Engine engine) {
  std::vector<std::string> statements;
  const auto add = [&](const auto& step) {
    for (const char* text : step) statements.push_back(in_words_of(engine, text));
  };
  if (to_format == 1) add(format_1);
  if (to_format == 2) add(format_2);
  if (to_format == 3) add(format_3);
  return statements;
}

void make_tables(Store::Inside& inside, int format) {
  for (int step = 1; step <= format; ++step)
    for (const std::string& statement : statements_of_step(step, inside.address.engine)) inside.run(statement);
  inside.found.format = format;
}

}  // namespace heatwork::records
