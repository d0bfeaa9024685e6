#include "records/verify.h"

#include <algorithm>
#include <functional>

#include "records/sample_store_for_tests.h"

namespace heatwork::records::for_tests {
namespace {

class VerifyTest : public OnEachEngine {
 protected:
  Verified proven(const std::string& head = "") const {
    Store store = Store::open(address_, opening());
    return verify(store, {head, {}});
  }
  /// The first sentence after one alteration of a sample store.
  std::string after(const std::string& statement) const {
    behind_its_back(statement);
    const Verified verified = proven();
    return verified.wrong.empty() ? "" : verified.wrong.front();
  }
  void sample() const {
    Store store = fresh();
    fill_sample(store);
  }
};
HEATWORK_ON_EACH_ENGINE(VerifyTest);

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

TEST_P(VerifyTest, a_sound_store_is_sound) {
  sample();
  Store store = fresh();
  const Status status = store.status();
  const Verified verified = verify(store);
  EXPECT_EQ(verified.wrong, std::vector<std::string>());
  EXPECT_EQ(verified.documents, status.versions);
  EXPECT_EQ(verified.entries, status.entries);
  EXPECT_EQ(verified.photos, 1);
  EXPECT_EQ(verified.persons, 1);
  EXPECT_EQ(verified.head, status.head);
  EXPECT_EQ(verified.one_by_one, 0) << "one pass proves it";
  EXPECT_FALSE(verified.stopped);
  EXPECT_TRUE(verify(store, {status.head, {}}).wrong.empty());
  EXPECT_TRUE(verify(store, {store.trail({}).rows.at(4).hash, {}}).wrong.empty());
}

TEST_P(VerifyTest, an_empty_store_is_sound) {
  Store store = fresh();
  const Verified verified = verify(store);
  EXPECT_EQ(verified.wrong, std::vector<std::string>());
  EXPECT_EQ(verified.entries, 1);
}

TEST_P(VerifyTest, text_that_was_altered_is_named_with_its_entry) {
  sample();
  EXPECT_EQ(after("update documents set body = replace(body, '585', '586') where id = 'dentine' and version = 2"),
            "program dentine, version 2: its text is not the one that was kept (entry 4).");
}

TEST_P(VerifyTest, of_several_alterations_the_earliest_entry_comes_first) {
  sample();
  behind_its_back("update documents set body = 'x' where id = 'firing-3'");
  behind_its_back("update documents set typed = '' where id = 'dentine' and version = 1");
  behind_its_back("update trail set person = 'xx' where sequence = 4");
  const Verified verified = proven();
  ASSERT_EQ(verified.wrong.size(), 3U);
  EXPECT_LE(verified.one_by_one, 4);
  EXPECT_TRUE(has(verified.wrong[0], "program dentine, version 1")) << verified.wrong[0];
  EXPECT_TRUE(has(verified.wrong[1], "Entry 4 (program dentine, version 2) was altered")) << verified.wrong[1];
  EXPECT_TRUE(has(verified.wrong[2], "firing firing-3, version 1")) << verified.wrong[2];
}

TEST_P(VerifyTest, a_text_altered_with_its_hash_is_not_the_one_that_was_kept) {
  sample();
  Document forged{"program", "dentine", 2, "label Dentine\n999 closing 4 min\n", "", ""};
  forged.hash = document_hash(forged);
  EXPECT_EQ(after("update documents set body = '" + forged.body + "', hash = '" + forged.hash + "' where id = 'dentine' and version = 2"),
            "program dentine, version 2: it is not the one that was kept (entry 4).");
}

TEST_P(VerifyTest, a_document_taken_out_is_named) {
  sample();
  EXPECT_EQ(after("delete from documents where id = 'firing-2'"),
            "firing firing-2, version 1 is not there, and entry 14 says that it was kept.");
}

TEST_P(VerifyTest, a_document_put_in_is_named) {
  sample();
  EXPECT_EQ(after("insert into documents select kind, 'firing-99', version, body, typed, hash from documents where id = 'firing-2'"),
            "firing firing-99, version 1: no entry of the trail tells of it.");
}

TEST_P(VerifyTest, a_version_put_in_behind_the_newest_is_named) {
  sample();
  EXPECT_EQ(after("insert into documents select kind, id, 4, body, typed, hash from documents where id = 'dentine' and version = 1"),
            "program dentine, version 4: no entry of the trail tells of it.");
}

TEST_P(VerifyTest, documents_that_changed_places_are_named) {
  sample();
  behind_its_back("update documents set id = 'x' where id = 'firing-1'");
  behind_its_back("update documents set id = 'firing-1' where id = 'firing-2'");
  EXPECT_TRUE(has(after("update documents set id = 'firing-2' where id = 'x'"), "firing firing-1, version 1: its text is not the one"));
}

TEST_P(VerifyTest, entries_taken_out_are_named) {
  sample();
  EXPECT_EQ(after("delete from trail where sequence = 5"), "Entry 5 is missing: after entry 4 comes entry 6.");
}

TEST_P(VerifyTest, rows_of_what_documents_are_found_by_are_compared) {
  sample();
  EXPECT_TRUE(has(after("delete from heads where id = 'firing-4'"), "firing firing-4 cannot be found"));
  behind_its_back("insert into heads select kind, id, 1, id, 'ended', '', 0 from documents where id = 'firing-4'");
  EXPECT_TRUE(has(proven().wrong.at(0), "firing firing-4, in what it is found by: its “label”"));
}

TEST_P(VerifyTest, a_row_too_many_or_missing_is_named) {
  sample();
  EXPECT_TRUE(has(after("delete from uses where id = 'firing-4' and row = 1"), "firing firing-4 has 1 rows of what it is found by"));
  EXPECT_TRUE(has(after("insert into uses select kind, 'firing-2', 3, at_ms, piece, furnace, program, lot from uses where id = "
                        "'firing-1' and row = 1"),
                  "firing firing-2 has 3 rows"));
  EXPECT_TRUE(has(after("delete from dues where row = 2"), "furnace corner has 1 rows of what falls due"));
  EXPECT_TRUE(has(after("delete from documents where id = 'corner'"), "furnace corner, version 1 is not there"));
}

TEST_P(VerifyTest, counts_are_proven_by_what_stands) {
  sample();
  EXPECT_EQ(after("update tallies set documents = 7 where kind = 'firing'"),
            "The count of firing ended was altered: it is 7, and 6 stand.");
  EXPECT_EQ(after("delete from tallies where kind = 'firing'"), "The count of firing ended was altered: it is 0, and 6 stand.");
  behind_its_back("insert into tallies values ('firing', 'ended', 6)");
  EXPECT_EQ(after("insert into tallies values ('lot', '', 1)"), "The count of lot (without a state) was altered: it is 1, and 0 stand.");
}

TEST_P(VerifyTest, photos_are_proven_by_their_bytes) {
  sample();
  EXPECT_TRUE(has(after("update photos set bytes_base64 = replace(bytes_base64, 'iVBO', 'iVBP')"), "its bytes are not those"))
      << proven().wrong.at(0);
  EXPECT_TRUE(has(after("delete from photos"), "is not there, and entry 8 says that it was kept"));
}

TEST_P(VerifyTest, a_photo_that_was_erased_may_not_come_back) {
  sample();
  const std::string hash = photo_hash("\x89PNG made up, two");
  EXPECT_TRUE(has(after("insert into photos values ('" + hash + "', 'iVBORyBtYWRlIHVwLCB0d28=')"), "says that it was erased"));
}

TEST_P(VerifyTest, personal_data_are_proven_by_the_salted_hash) {
  sample();
  EXPECT_TRUE(has(after("update personal set body = 'Maria X'"), "The personal data of “mk” are not those that were kept (entry 10)"));
  EXPECT_TRUE(has(after("delete from personal"), "are not there, and entry 10 says that they were kept"));
  EXPECT_TRUE(has(after("insert into personal values ('tt', '00', 'Tom')"), "“mk” are not there"));
  EXPECT_EQ(proven().wrong.size(), 2U);
  EXPECT_TRUE(has(proven().wrong.at(1), "The personal data of “tt” are there, and entry 11 says that they were erased."));
}

TEST_P(VerifyTest, what_the_store_says_of_itself_is_held_against_the_trail) {
  sample();
  const std::string store_id(32, '0');
  behind_its_back("update about set value = '" + sealed("store_id", store_id) + "' where key = 'store_id'");
  EXPECT_TRUE(has(proven().wrong.at(0), "its “store_id” is"));
  EXPECT_TRUE(
      has(after("insert into about values ('moved_to', '" + sealed("moved_to", "elsewhere") + "')"), "no entry tells of its “moved_to”"));
  EXPECT_TRUE(has(after("insert into about values ('more', 'x')"), "is nothing a store says"));
}

TEST_P(VerifyTest, at_most_twenty_sentences_the_earliest) {
  {
    Store store = fresh();
    fill_sample(store, 40);
  }
  behind_its_back("update documents set body = 'x' where kind = 'firing'");
  const Verified verified = proven();
  ASSERT_EQ(verified.wrong.size(), 20U);
  EXPECT_TRUE(has(verified.wrong.front(), "firing firing-1, version 1")) << verified.wrong.front();
  EXPECT_TRUE(has(verified.wrong.back(), "firing firing-20, version 1")) << verified.wrong.back();
}

TEST_P(VerifyTest, a_watcher_sees_how_far_it_is_and_may_stop_it) {
  {
    Store store = fresh();
    fill_sample(store, 400);
  }
  Store store = fresh();
  std::int64_t last = 0, all = 0;
  EXPECT_TRUE(verify(store, {"",
                             [&](std::int64_t done, std::int64_t of) {
                               EXPECT_GE(done, last);
                               last = done;
                               all = of;
                               return true;
                             }})
                  .wrong.empty());
  EXPECT_GT(all, 800);
  EXPECT_NEAR(static_cast<double>(last), static_cast<double>(all), 10);
  EXPECT_TRUE(verify(store, {"", [](std::int64_t, std::int64_t) { return false; }}).stopped);
}

TEST_P(VerifyTest, a_head_that_is_no_hash_is_refused) {
  sample();
  EXPECT_EQ(problem_of([&] { proven("12ab"); }).first, StoreProblem::bad_value);
}

/// Rewrites the trail from an entry on with right hashes, as somebody would who may write the store and knows how it is made.
void rewrite_from(const Address& address, std::int64_t sequence, const std::function<void(Entry&)>& alter) {
  Store store = Store::open(address, opening());
  Store::Inside& inside = store.inside();
  std::vector<Entry> entries;
  WriteTransaction writing(inside);
  for (auto rows = inside.entries(); const Entry* entry = rows.next();) entries.push_back(*entry);
  inside.run("delete from trail");
  std::string previous(64, '0');
  for (Entry& entry : entries) {
    if (entry.sequence >= sequence) {
      alter(entry);
      entry.previous = previous;
      entry.hash = entry_hash(entry);
    }
    previous = entry.hash;
  }
  inside.insert(entries);
  writing.commit();
}

TEST_P(VerifyTest, a_chain_rewritten_whole_is_found_by_a_head_that_was_printed) {
  sample();
  const std::string head = fresh().status().head;
  const std::string early = fresh().trail({}).rows.at(2).hash;
  rewrite_from(address_, 4, [](Entry& entry) { entry.who.person = "xx"; });
  EXPECT_EQ(proven().wrong, std::vector<std::string>()) << "nothing in the store itself tells";
  EXPECT_EQ(proven(early).wrong, std::vector<std::string>());
  EXPECT_EQ(proven(head).wrong,
            std::vector<std::string>({"No entry has the hash " + head + ": the trail was cut or rewritten after it was printed."}));
}

TEST_P(VerifyTest, a_chain_rewritten_whole_must_tell_what_stands) {
  sample();
  rewrite_from(address_, 11, [](Entry& entry) {
    if (entry.action == "personal data erased") entry.action = "personal data lost";
  });
  EXPECT_EQ(proven().wrong.at(0), "The personal data of \xe2\x80\x9ctt\xe2\x80\x9d are not there, and entry 11 says that they were kept.");
}

TEST_P(VerifyTest, versions_told_in_another_order_are_named) {
  sample();
  const auto trail = fresh().trail({}).rows;
  const auto told = [&](Entry& entry, const Entry& other) {
    entry.version = other.version;
    entry.document_hash = other.document_hash;
    entry.replaced_hash = other.replaced_hash;
  };
  rewrite_from(address_, 4, [&](Entry& entry) {
    if (entry.sequence == 4) told(entry, trail.at(4));
    if (entry.sequence == 5) told(entry, trail.at(3));
  });
  EXPECT_TRUE(has(proven().wrong.at(0), "Entry 4 tells of program dentine, version 3 out of turn: version 2 was next."))
      << proven().wrong.at(0);
}

TEST_P(VerifyTest, a_trail_cut_with_its_documents_is_found_by_a_head_that_was_printed) {
  sample();
  const std::string head = fresh().status().head;
  behind_its_back("delete from trail where sequence > 12");
  for (const char* table : {"documents", "heads", "uses", "tallies"})
    behind_its_back("delete from " + std::string(table) + " where kind = 'firing'");
  EXPECT_EQ(proven().wrong, std::vector<std::string>()) << "nothing in the store itself tells";
  EXPECT_TRUE(has(proven(head).wrong.at(0), "the trail was cut or rewritten after it was printed"));
}

TEST_P(VerifyTest, a_trail_cut_alone_leaves_documents_that_no_entry_tells_of) {
  sample();
  EXPECT_EQ(after("delete from trail where sequence = (select max(sequence) from trail)"),
            "firing firing-6, version 1: no entry of the trail tells of it.");
}

}  // namespace
}  // namespace heatwork::records::for_tests
