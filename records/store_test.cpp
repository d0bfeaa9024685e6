#include <sys/stat.h>

#include <fstream>

#include "records/hash.h"
#include "records/store_for_tests.h"

namespace heatwork::records::for_tests {
namespace {

class StoreTest : public OnEachEngine {};
HEATWORK_ON_EACH_ENGINE(StoreTest);

TEST_P(StoreTest, keeps_a_document_and_finds_it_after_it_was_closed) {
  Kept kept;
  {
    Store store = fresh();
    kept = store.keep(change({version("program", "dentine", 0, "label Dentine one\n")}));
    ASSERT_EQ(kept.documents.size(), 1U);
    EXPECT_EQ(kept.documents[0].version, 1);
    EXPECT_EQ(kept.sequence, 2);
  }
  Store store = fresh();
  const auto found = store.find("program", "dentine");
  ASSERT_TRUE(found);
  EXPECT_EQ(found->body, "label Dentine one\n");
  EXPECT_EQ(found->hash, kept.documents[0].hash);
  EXPECT_EQ(found->hash, document_hash(*found));
  EXPECT_FALSE(store.find("program", "other"));
  EXPECT_FALSE(store.find("program", "dentine", 2));
  EXPECT_EQ(store.status().head, kept.head);
}

TEST_P(StoreTest, every_byte_of_a_text_comes_back) {
  Store store = fresh();
  std::string body;
  for (int letter = 1; letter < 128; ++letter) body += static_cast<char>(letter);
  body += "\\ \\\\ \\x41 'single' \"double\" $1 :p1 ? % _ \u00e4\u00f6\u00fc \u03b1 \u20ac \U0001F525 \r\n\ttail ";
  NewVersion made = version("note", "o'br\\ien :p1 \u00fc", 0, body);
  made.typed = "\n\n" + body;
  made.reason = "because \\ ' \"\n";
  store.keep(change({made}));
  const auto found = store.find("note", "o'br\\ien :p1 \u00fc");
  ASSERT_TRUE(found);
  EXPECT_EQ(found->body, body);
  EXPECT_EQ(found->typed, "\n\n" + body);
  EXPECT_EQ(store.trail({"note", "", 0, true}).rows.at(0).reason, "because \\ ' \"\n");
}

TEST_P(StoreTest, old_versions_stay_and_answers_speak_of_the_newest) {
  Store store = fresh();
  store.keep(change({version("firing", "f1", 0, "state planned\nuse 10 p1 oven a@1 -\n")}));
  store.keep(change({version("firing", "f1", 1, "state ended\nuse 20 p2 oven a@1 -\n"),
                     version("firing", "f1", 2, "state good\nuse 30 p2 oven b@1 -\n")}));
  const auto all = store.versions("firing", "f1");
  ASSERT_EQ(all.size(), 3U);
  EXPECT_EQ(all[0].body, "state planned\nuse 10 p1 oven a@1 -\n");
  EXPECT_EQ(all[2].version, 3);
  const auto heads = store.heads({"firing", "", "", 1});
  ASSERT_EQ(heads.rows.size(), 1U);
  EXPECT_EQ(heads.rows[0].version, 3);
  EXPECT_EQ(heads.rows[0].state, "good");
  EXPECT_EQ(store.pieces({PieceQuery::By::furnace, "oven"}).rows.at(0).piece, "p2");
  EXPECT_EQ(store.pieces({PieceQuery::By::furnace, "oven"}).count, 1);
  EXPECT_EQ(store.pieces({PieceQuery::By::program, "a@1"}).count, 0);
}

TEST_P(StoreTest, a_conflicting_change_is_answered_with_both_versions_and_keeps_nothing) {
  Store store = fresh();
  store.keep(change({version("program", "a", 0, "one")}));
  store.keep(change({version("program", "a", 1, "two")}));
  try {
    store.keep(change({version("program", "b", 0, "beside"), version("program", "a", 1, "mine")}));
    FAIL();
  } catch (const Conflict& conflict) {
    EXPECT_EQ(conflict.stands().body, "two");
    EXPECT_EQ(conflict.stands().version, 2);
    EXPECT_EQ(conflict.yours(), "mine");
    EXPECT_EQ(std::string(conflict.what()),
              "The program \"a\" was changed meanwhile: version 2 stands, yours was made from version 1. Nothing was kept.");
  }
  EXPECT_FALSE(store.find("program", "b"));
  EXPECT_THROW(store.keep(change({version("program", "a", 0, "x")})), Conflict);
  EXPECT_THROW(store.keep(change({version("program", "c", 1, "x")})), Conflict);
  EXPECT_EQ(store.trail({}).count, 3);
}

TEST_P(StoreTest, what_is_kept_once_is_not_kept_again) {
  Store store = fresh();
  NewVersion snapshot = version("snapshot", "s", 0, "text");
  snapshot.once = true;
  const Kept first = store.keep(change({snapshot}));
  const Kept again = store.keep(change({snapshot}));
  EXPECT_EQ(again.head, first.head);
  EXPECT_EQ(again.sequence, 2);
  ASSERT_EQ(again.documents.size(), 1U);
  EXPECT_EQ(again.documents[0].hash, first.documents[0].hash);
  const Kept twice = store.keep(change({snapshot, version("program", "a", 0, "one"), snapshot}));
  EXPECT_EQ(twice.documents.size(), 3U);
  EXPECT_EQ(twice.sequence, 3);
  snapshot.body = "other";
  EXPECT_THROW(store.keep(change({snapshot})), Conflict);
}

TEST_P(StoreTest, the_trail_is_a_chain_from_the_first_entry) {
  Store store = fresh();
  store.keep(change({version("program", "a", 0, "one")}));
  Change second = change({version("program", "a", 1, "two")});
  second.documents[0].reason = "hotter";
  store.keep(second);
  const auto trail = store.trail({});
  ASSERT_EQ(trail.rows.size(), 3U);
  EXPECT_EQ(trail.rows[0].action, "store made");
  EXPECT_EQ(trail.rows[0].previous, std::string(64, '0'));
  EXPECT_EQ(trail.rows[0].id, store.status().store_id);
  for (std::size_t i = 0; i < trail.rows.size(); ++i) {
    EXPECT_EQ(trail.rows[i].hash, entry_hash(trail.rows[i]));
    EXPECT_EQ(trail.rows[i].sequence, static_cast<std::int64_t>(i) + 1);
    if (i > 0) {
      EXPECT_EQ(trail.rows[i].previous, trail.rows[i - 1].hash);
    }
  }
  EXPECT_EQ(trail.rows[2].replaced_hash, trail.rows[1].document_hash);
  EXPECT_EQ(trail.rows[2].reason, "hotter");
  EXPECT_EQ(trail.rows[2].who.person, "mk");
  EXPECT_EQ(store.trail({"", "", 1, false}).rows.at(0).sequence, 2);
  EXPECT_EQ(store.trail({"program", "a", 0, true}).rows.at(0).sequence, 3);
}

TEST_P(StoreTest, pieces_are_counted_exactly_over_pages) {
  Store store = fresh();
  Change many = change({});
  for (int i = 0; i < 1250; ++i) {
    const std::string name = "p" + std::to_string(10000 + i);
    many.documents.push_back(version("firing", "f" + std::to_string(i), 0,
                                     "use " + std::to_string(5000 - i) + " " + name + " oven dentine@" + std::to_string(1 + i % 2) +
                                         " lot\nuse " + std::to_string(9000) + " p-every other - -\n"));
  }
  store.keep(many);
  const auto first = store.pieces({PieceQuery::By::furnace, "oven"});
  EXPECT_EQ(first.count, 1250);
  ASSERT_EQ(first.rows.size(), 1000U);
  EXPECT_EQ(first.rows[0].piece, "p11249");
  PieceQuery query{PieceQuery::By::furnace, "oven"};
  query.page = 2;
  EXPECT_EQ(store.pieces(query).rows.size(), 250U);
  query.page = 3;
  EXPECT_EQ(store.pieces(query).rows.size(), 0U);
  EXPECT_EQ(store.pieces(query).count, 1250);
  query = {PieceQuery::By::furnace, "oven", 4000, 4010};
  EXPECT_EQ(store.pieces(query).count, 10);
  EXPECT_EQ(store.pieces({PieceQuery::By::program, "dentine@1"}).count, 625);
  EXPECT_EQ(store.pieces({PieceQuery::By::program, "dentine"}).count, 1250);
  EXPECT_EQ(store.pieces({PieceQuery::By::program, "dent"}).count, 0);
  const auto last = store.last_use("dentine@1");
  ASSERT_TRUE(last);
  PieceQuery all{PieceQuery::By::program, "dentine@1"};
  std::int64_t newest = 0;
  for (const auto& row : store.pieces(all).rows) newest = std::max(newest, row.last_ms);
  EXPECT_EQ(last->at_ms, newest);
  EXPECT_EQ(last->furnace, "oven");
  EXPECT_FALSE(store.last_use("dentine"));
  EXPECT_FALSE(store.last_use("dentine@3"));
  EXPECT_EQ(store.pieces({PieceQuery::By::lot, "lot"}).count, 1250);
  const auto every = store.pieces({PieceQuery::By::furnace, "other"});
  ASSERT_EQ(every.count, 1);
  EXPECT_EQ(every.rows[0].times, 1250);
  EXPECT_EQ(store.uses_of("p-every").count, 1250);
  EXPECT_EQ(store.uses_of("p-every", 2).rows.size(), 250U);
  EXPECT_EQ(store.heads({"firing", "", "", 2}).rows.size(), 250U);
  EXPECT_EQ(store.heads({"firing", "", "", 1}).count, 1250);
}

TEST_P(StoreTest, a_word_is_sought_letter_by_letter_in_any_case) {
  Store store = fresh();
  store.keep(change({version("lot", "a_1", 0, "label 100% Dentine\nstate open\n"),
                     version("lot", "ab1", 0, "label other\nstate open\nsome words\n"), version("piece", "x", 0, "label dentine\n")}));
  EXPECT_EQ(store.heads({"lot", "A_", "", 1}).count, 1);
  EXPECT_EQ(store.heads({"lot", "0% d", "", 1}).count, 1);
  EXPECT_EQ(store.heads({"", "DENTINE", "", 1}).count, 2);
  EXPECT_EQ(store.heads({"lot", "me wo", "open", 1}).count, 1);
  EXPECT_EQ(store.heads({"lot", "", "shut", 1}).count, 0);
  EXPECT_EQ(store.heads({"lot", "%", "", 1}).count, 1);
  EXPECT_EQ(store.heads({"lot", "|", "", 1}).count, 0);
}

TEST_P(StoreTest, names_are_found_among_words_as_a_whole) {
  Store store = fresh();
  store.keep(change({version("case", "k-2", 0, "16 crown-1 bridge-7\n"), version("case", "k-1", 0, "crown-1\n"),
                     version("case", "k-3", 0, "crown-12\n"), version("lot", "jar", 0, "crown-1\n"), version("case", "k-4", 0, "\n")}));
  EXPECT_EQ(store.naming("case", {"crown-1", "bridge-7"}), (std::vector<std::string>{"k-1", "k-2"}));
  EXPECT_EQ(store.naming("case", {"crown"}), std::vector<std::string>());
  EXPECT_EQ(store.naming("case", {}), std::vector<std::string>());
  store.keep(change({version("case", "k-1", 1, "inlay-2\n")}));
  EXPECT_EQ(store.naming("case", {"crown-1"}), (std::vector<std::string>{"k-2"}));
}

TEST_P(StoreTest, checks_are_found_by_their_furnace_newest_first_and_are_no_pieces) {
  Store store = fresh();
  store.keep(change(
      {version("check", "a", 0, "state good\nuse 10 - corner - -\n"), version("check", "b", 0, "state bad\nuse 20 - corner - -\n"),
       version("check", "c", 0, "state good\nuse 15 - attic - -\n"), version("firing", "f", 0, "use 12 crown corner dentine@1 -\n")}));
  const auto found = store.of_furnace("corner");
  ASSERT_EQ(found.count, 2);
  EXPECT_EQ(found.rows[0].id, "b");
  EXPECT_EQ(found.rows[0].state, "bad");
  EXPECT_EQ(found.rows[0].at_ms, 20);
  EXPECT_EQ(found.rows[1].id, "a");
  EXPECT_EQ(store.of_furnace("corner", 2).count, 2);
  EXPECT_TRUE(store.of_furnace("corner", 2).rows.empty());
  EXPECT_EQ(store.of_furnace("").count, 0);
  const auto pieces = store.pieces({PieceQuery::By::furnace, "corner"});
  ASSERT_EQ(pieces.count, 1);
  EXPECT_EQ(pieces.rows[0].piece, "crown");
  EXPECT_EQ(store.pieces({PieceQuery::By::furnace, "attic"}).count, 0);
}

TEST_P(StoreTest, documents_are_counted_by_kind_and_state_through_every_change) {
  Store store = fresh();
  store.keep(
      change({version("firing", "a", 0, "state planned\n"), version("firing", "b", 0, "state planned\n"), version("tray", "t", 0, "x")}));
  store.keep(change({version("firing", "a", 1, "state started\n"), version("firing", "a", 2, "state ended\n")}));
  EXPECT_EQ(store.heads({"firing", "", "", 1}).count, 2);
  EXPECT_EQ(store.heads({"firing", "", "planned", 1}).count, 1);
  EXPECT_EQ(store.heads({"firing", "", "started", 1}).count, 0);
  EXPECT_EQ(store.heads({"firing", "", "ended", 1}).count, 1);
  EXPECT_EQ(store.heads({"", "", "", 1}).count, 3);
  EXPECT_EQ(store.heads({"", "", "ended", 1}).count, 1);
  EXPECT_EQ(store.heads({"lot", "", "", 1}).count, 0);
  EXPECT_EQ(store.status().documents, 3);
  std::int64_t tallies = 0;
  for (auto rows = store.inside().tallies(); rows.next();) ++tallies;
  EXPECT_EQ(tallies, 3) << "none of nothing stays";
}

TEST_P(StoreTest, dues_come_in_order_of_day) {
  Store store = fresh();
  store.keep(change({version("lot", "b", 0, "label B\ndue 2027-01-31 expires\n"),
                     version("lot", "a", 0, "due 2027-01-31 expires\ndue 2026-12-01 to check\n"),
                     version("lot", "c", 0, "due 2027-02-01 expires\n")}));
  const auto due = store.dues("2027-01-31");
  ASSERT_EQ(due.count, 3);
  EXPECT_EQ(due.rows[0].due, (Due{"2026-12-01", "to check"}));
  EXPECT_EQ(due.rows[1].id, "a");
  EXPECT_EQ(due.rows[2].label, "B");
}

TEST_P(StoreTest, personal_data_is_kept_and_erased_with_its_salt) {
  Store store = fresh();
  Change kept = change({});
  kept.personal = {{"mk", "name = \"Somebody\"", "joined"}};
  store.keep(kept);
  EXPECT_EQ(store.personal("mk"), "name = \"Somebody\"");
  const PersonalRow row = *store.inside().personals().next();
  const Entry entry = store.trail({"", "", 0, true}).rows.at(0);
  EXPECT_EQ(entry.action, "personal data kept");
  EXPECT_EQ(entry.document_hash, personal_hash(row));
  EXPECT_EQ(row.salt.size(), 64U);
  Change erased = change({});
  erased.personal = {{"mk", "", "left"}};
  store.keep(erased);
  EXPECT_FALSE(store.personal("mk"));
  EXPECT_EQ(store.inside().count("personal"), 0);
  EXPECT_EQ(store.trail({"", "", 0, true}).rows.at(0).action, "personal data erased");
  EXPECT_EQ(problem_of([&] { store.keep(erased); }).first, StoreProblem::bad_value);
}

TEST_P(StoreTest, a_photo_is_kept_once_by_its_bytes) {
  Store store = fresh();
  Change kept = change({});
  const std::string bytes("\x89PNG\0\xff\x01", 7);
  kept.photos = {{bytes, "after"}, {bytes, "again"}};
  const Kept answer = store.keep(kept);
  ASSERT_EQ(answer.photos.size(), 2U);
  EXPECT_EQ(answer.photos[0], hash_of_bytes(bytes));
  EXPECT_EQ(store.photo(answer.photos[0]), bytes);
  EXPECT_EQ(store.status().photos, 1);
  EXPECT_EQ(store.keep(kept).head, answer.head);
  Change erased = change({});
  erased.erase_photos = {answer.photos[0]};
  erased.reason_to_erase = "asked for";
  store.keep(erased);
  EXPECT_FALSE(store.photo(answer.photos[0]));
  EXPECT_EQ(store.trail({"", "", 0, true}).rows.at(0).action, "photo erased");
}

TEST_P(StoreTest, what_cannot_be_kept_is_refused_in_one_sentence) {
  Store store = fresh();
  const auto refused = [&](NewVersion made) { return problem_of([&] { store.keep(change({std::move(made)})); }); };
  EXPECT_EQ(refused(version("program", "", 0, "x")).second, "The name of a program cannot be kept: it is empty. Nothing was kept.");
  EXPECT_EQ(refused(version("program", "a", 0, std::string("x\0y", 3))).second,
            "The program \"a\" cannot be kept: it holds a NUL byte. Nothing was kept.");
  EXPECT_EQ(refused(version("program", "a", 0, "\xc3(")).second, "The program \"a\" cannot be kept: it is no UTF-8. Nothing was kept.");
  EXPECT_EQ(refused(version("program", std::string(201, 'a'), 0, "x")).first, StoreProblem::bad_value);
  EXPECT_EQ(refused(version("program", "a\nb", 0, "x")).first, StoreProblem::bad_value);
  EXPECT_EQ(refused(version("program", "a", 0, "unreadable")).second,
            "The program \"a\" cannot be kept, as it cannot be read back: Line 1 cannot be read. Nothing was kept.");
  EXPECT_EQ(refused(version("firing", "a", 0, "use 1 p f - -\nuse 2 p f - -\n")).first, StoreProblem::bad_value);
  EXPECT_EQ(refused(version("program", "a", 0, std::string(largest_document + 1, 'x'))).first, StoreProblem::bad_value);
  EXPECT_EQ(store.trail({}).count, 1);
}

TEST_P(StoreTest, large_documents_stream_in_pages) {
  Store store = fresh();
  for (int i = 0; i < 5; ++i)
    store.keep(change({version("log", "l" + std::to_string(i), 0, std::string(largest_document, static_cast<char>('a' + i)))}));
  const ReadingView view(store.inside());
  auto rows = store.inside().documents();
  int seen = 0;
  while (const Document* row = rows.next()) {
    EXPECT_EQ(row->body.size(), largest_document);
    EXPECT_EQ(row->hash, document_hash(*row));
    EXPECT_EQ(row->id, "l" + std::to_string(seen++));
  }
  EXPECT_EQ(seen, 5);
}

}  // namespace
}  // namespace heatwork::records::for_tests
