#include "desk/lab/sign_in.h"

#include <fmt/format.h>
#include <sodium.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <semaphore>
#include <utility>

#include "desk/errors.h"
#include "desk/lab/keep.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/personal_data.h"
#include "desk/lab/store_place.h"
#include "records/hash.h"
#include "records/store_error.h"

namespace heatwork::desk {
namespace {

constexpr std::size_t fewest_letters = 10, most_bytes = 200, fewest_digits = 4, most_digits = 12;
constexpr unsigned long long passes = crypto_pwhash_OPSLIMIT_INTERACTIVE;
constexpr std::size_t memory = crypto_pwhash_MEMLIMIT_INTERACTIVE;  // 64 MiB
constexpr int most_waiting = 16;

/// What is held against a secret of which none is kept, so that the answer takes as long.
constexpr const char* nobodys = "$argon2id$v=19$m=65536,t=2,p=1$AAAAAAAAAAAAAAAAAAAAAA$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";

std::counting_semaphore<2> computing{2};
std::atomic<int> waiting{0};

/// One of the two places to compute in.
class Place {
 public:
  Place() {
    if (++waiting > most_waiting) {
      --waiting;
      throw Failure(ErrorWord::busy, "Too many sign in at once; try again in some seconds.");
    }
    computing.acquire();
  }
  Place(const Place&) = delete;
  Place& operator=(const Place&) = delete;
  ~Place() {
    computing.release();
    --waiting;
  }
};

void ready() {
  if (sodium_init() < 0) throw std::bad_alloc();
}

std::string hashed(const std::string& typed) {
  ready();
  const Place place;
  std::array<char, crypto_pwhash_STRBYTES> text{};
  if (crypto_pwhash_str(text.data(), typed.data(), typed.size(), passes, memory) != 0) throw std::bad_alloc();
  return text.data();
}

bool fits(const std::string& kept, const std::string& typed) {
  ready();
  const Place place;
  return crypto_pwhash_str_verify(kept.c_str(), typed.data(), typed.size()) == 0;
}

[[noreturn]] void refuse(const std::string& sentence) {
  throw Failure(ErrorWord::bad_value, sentence + " Nothing was kept.");
}

std::size_t letters_of(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

void check_password(const std::string& code, const std::string& typed) {
  const bool control = std::any_of(typed.begin(), typed.end(), [](char c) { return static_cast<unsigned char>(c) < ' '; });
  if (control || typed.size() > most_bytes) refuse(fmt::format("A password is one line of at most {} bytes.", most_bytes));
  if (letters_of(typed) < fewest_letters)
    refuse(fmt::format("A password has at least {} letters; this one has {}.", fewest_letters, letters_of(typed)));
  const auto same = [](char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) == std::tolower(static_cast<unsigned char>(b));
  };
  if (std::equal(typed.begin(), typed.end(), code.begin(), code.end(), same)) refuse("A password must not be the code of the person.");
  if (std::all_of(typed.begin(), typed.end(), [&](char c) { return c == typed.front(); }))
    refuse("A password of one letter throughout is guessed first; choose another.");
}

void check_pin(const std::string& typed) {
  const bool digits = std::all_of(typed.begin(), typed.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (!digits || typed.size() < fewest_digits || typed.size() > most_digits)
    refuse(fmt::format("A PIN is {} to {} digits.", fewest_digits, most_digits));
  for (const int step : {-1, 0, 1}) {
    bool in_a_row = true;
    for (std::size_t i = 1; i < typed.size(); ++i) in_a_row = in_a_row && typed[i] - typed[i - 1] == step;
    if (in_a_row) refuse("A PIN of one digit throughout, or of digits in a row, is guessed first; choose another.");
  }
}

PersonalData data_of(records::Store& store, const std::string& code) {
  const auto kept = store.personal(code);
  return kept ? personal_data(code, *kept) : PersonalData{};
}

PersonNow person_in(const records::Document& document, const PersonalData& data) {
  const auto person = read_kept<trade::Person>(trade::source_of("person " + document.id, document.body));
  return {document.id,
          person.role.value,
          person.may_set_up.value,
          person.left,
          !data.password.empty(),
          !data.pin.empty(),
          records::hash_of_bytes(data.password)};
}

/// Work on the store that reads; `otherwise` where none stands.
template <class Work, class Value>
Value reading(const AskedLab& asked, Value otherwise, Work&& work) {
  const StorePlace place = place_of(asked);
  return caring(place, [&]() -> Value {
    try {
      records::Store store = opened(place, Reading::only);
      return work(store);
    } catch (const records::StoreError& error) {
      if (error.problem() != records::StoreProblem::no_store) throw;
      return otherwise;
    }
  });
}

}  // namespace

std::string_view word(Secret secret) {
  return secret == Secret::password ? "password" : "PIN";
}

CareAnswer keep_secret(const AskedLab& asked, const SecretWords& words) {
  const bool password = words.which == Secret::password;
  if (!words.typed.empty() && password) check_password(words.code, words.typed);
  if (!words.typed.empty() && !password) check_pin(words.typed);
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    if (!store.find("person", words.code))
      throw Failure(ErrorWord::unknown_name,
                    fmt::format("No person \"{}\" is entered. Nothing was kept; enter the person first.", words.code));
    PersonalData data = data_of(store, words.code);
    std::string& kept = password ? data.password : data.pin;
    if (words.typed.empty() && kept.empty()) refuse(fmt::format("Person \"{}\" has no {}.", words.code, word(words.which)));
    kept = words.typed.empty() ? "" : hashed(words.typed);
    records::Change change;
    change.personal = {{words.code, data.empty() ? "" : text_of(data), words.reason}};
    const records::Kept done = keep(place, store, std::move(change));
    const std::string what = words.typed.empty() ? fmt::format("{} has no {} any more", words.code, word(words.which))
                                                 : fmt::format("{} of {}, as Argon2id", word(words.which), words.code);
    return CareAnswer{care_line("Kept", fmt::format("{}, trail entry {}", what, done.sequence)) +
                          care_line("Apart", "among personal data, where it can be erased; it is never shown") +
                          care_line("Head hash", done.head),
                      JsonObject{{"format", 1},
                                 {"person", words.code},
                                 {"password", !data.password.empty()},
                                 {"pin", !data.pin.empty()},
                                 {"entry", static_cast<double>(done.sequence)},
                                 {"head", done.head}},
                      false};
  });
}

std::optional<PersonNow> person_now(const AskedLab& asked, const std::string& code) {
  return reading(asked, std::optional<PersonNow>(), [&](records::Store& store) -> std::optional<PersonNow> {
    const auto found = store.find("person", code);
    if (!found) return std::nullopt;
    return person_in(*found, data_of(store, code));
  });
}

bool somebody_has_password(const AskedLab& asked) {
  return reading(asked, false, [&](records::Store& store) {
    records::HeadQuery persons;
    persons.kind = "person";
    for (bool more = true; more; ++persons.page) {
      const auto page = store.heads(persons);
      for (const auto& head : page.rows) {
        const PersonalData data = data_of(store, head.id);
        if (data.password.empty()) continue;
        if (!person_in(*store.find("person", head.id), data).left) return true;
      }
      more = static_cast<std::int64_t>(persons.page) * records::rows_a_page < page.count;
    }
    return false;
  });
}

std::optional<PersonNow> signs_in(const AskedLab& asked, const std::string& code, Secret which, const std::string& typed) {
  std::optional<PersonNow> person;
  PersonalData data;
  reading(asked, false, [&](records::Store& store) {
    data = data_of(store, code);
    if (const auto found = store.find("person", code)) person = person_in(*found, data);
    return true;
  });
  const std::string& kept = which == Secret::password ? data.password : data.pin;
  const bool right = fits(kept.empty() ? nobodys : kept, typed.substr(0, most_bytes + 1));
  if (!right || kept.empty() || !person || person->left) return std::nullopt;
  return person;
}

}  // namespace heatwork::desk
