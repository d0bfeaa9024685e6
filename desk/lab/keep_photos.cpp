#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <utility>

#include "desk/errors.h"
#include "desk/files.h"
#include "desk/lab/bench_work.h"
#include "desk/lab/image_kind.h"
#include "desk/lab/keep.h"
#include "desk/lab/kept_firing.h"
#include "trade/mistake.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

namespace fs = std::filesystem;

std::string photo_in(const std::string& file) {
  std::error_code error;
  const auto size = fs::file_size(file, error);
  if (!error && size > records::largest_photo)
    throw Failure(ErrorWord::bad_value, fmt::format("{} has {:.1f} MB; a photo has at most {} MB.", file, static_cast<double>(size) / 1e6,
                                                    records::largest_photo / 1'000'000));
  std::string bytes = read_whole(file);
  if (image_kind(bytes).empty()) throw Failure(ErrorWord::bad_value, fmt::format("{} is no photo; one is {}.", file, image_kinds));
  return bytes;
}

}  // namespace

CareAnswer keep_photos(const AskedLab& asked, const std::string& name, const std::vector<std::string>& files, const std::string& of) {
  const StorePlace place = place_of(asked);
  std::vector<std::string> all;
  for (const std::string& file : files) all.push_back(photo_in(file));
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    const KeptFiring stands = kept_firing(store, name);
    trade::Firing firing = stands.firing;
    if (!firing.record) firing.record.emplace();
    auto& photos = firing.record->photos;
    records::Change change;
    std::string said;
    JsonList told;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const std::string hash = trade::blake2b_256(all[i]);
      const bool is_new = std::none_of(photos.begin(), photos.end(), [&](const auto& each) { return each.hash == hash; });
      said += care_line("Photo", fmt::format("{} is {}{}", files[i], hash, is_new ? "" : ", kept with this firing before"));
      told.push_back(JsonObject{{"file", files[i]}, {"hash", hash}, {"is_new", is_new}});
      if (!is_new) continue;
      photos.push_back({hash, of, {}});
      change.photos.push_back({std::move(all[i]), fmt::format("firing {}", firing.name)});
    }
    int version = stands.document.version;
    if (!change.photos.empty()) {
      change.documents.push_back(next_version(stands, firing, "photo kept"));
      ++version;
    }
    const std::string head = keep(place, store, std::move(change)).head;
    return CareAnswer{care_line("Firing", fmt::format("{}@{}", firing.name, version)) + said + care_line("Head hash", head),
                      JsonObject{{"format", 1}, {"firing", firing.name}, {"version", version}, {"photos", std::move(told)}, {"head", head}},
                      false};
  });
}

CareAnswer write_photo(const AskedLab& asked, const std::string& hash, const std::string& file) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    const auto bytes = store.photo(hash);
    if (!bytes) throw Failure(ErrorWord::unknown_name, fmt::format("No photo with the hash {} is kept.", trade::for_message(hash, 80)));
    std::error_code error;
    if (fs::symlink_status(file, error).type() != fs::file_type::not_found)
      throw Failure(ErrorWord::already_there, fmt::format("{} stands there already; nothing was written. Name another file.", file));
    write_whole(file, *bytes);
    return CareAnswer{
        care_line("Written", fmt::format("{}, {}, {}", file, image_kind(*bytes), bytes_in_words(static_cast<std::int64_t>(bytes->size())))),
        JsonObject{{"format", 1},
                   {"photo", hash},
                   {"file", file},
                   {"kind", std::string(image_kind(*bytes))},
                   {"bytes", static_cast<double>(bytes->size())}},
        false};
  });
}

}  // namespace heatwork::desk
