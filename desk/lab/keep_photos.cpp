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

struct NewPhoto {
  std::string called;  ///< how sentences name it: its file
  std::string bytes;
};

void check_photo(const NewPhoto& photo) {
  if (photo.bytes.size() > records::largest_photo)
    throw Failure(ErrorWord::bad_value, fmt::format("{} has {:.1f} MB; a photo has at most {} MB.", photo.called,
                                                    static_cast<double>(photo.bytes.size()) / 1e6, records::largest_photo / 1'000'000));
  if (image_kind(photo.bytes).empty())
    throw Failure(ErrorWord::bad_value, fmt::format("{} is no photo; one is {}.", photo.called, image_kinds));
}

NewPhoto photo_in(const std::string& file) {
  std::error_code error;
  const auto size = fs::file_size(file, error);
  if (!error && size > records::largest_photo)
    throw Failure(ErrorWord::bad_value, fmt::format("{} has {:.1f} MB; a photo has at most {} MB.", file, static_cast<double>(size) / 1e6,
                                                    records::largest_photo / 1'000'000));
  NewPhoto photo{file, read_whole(file)};
  check_photo(photo);
  return photo;
}

CareAnswer keep_with_firing(const AskedLab& asked, const std::string& name, std::vector<NewPhoto> all, const std::string& of) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    const KeptFiring stands = kept_firing(store, name);
    trade::Firing firing = stands.firing;
    if (!firing.record) firing.record.emplace();
    auto& photos = firing.record->photos;
    records::Change change;
    std::string said;
    JsonList told;
    for (NewPhoto& photo : all) {
      const std::string hash = trade::blake2b_256(photo.bytes);
      const bool is_new = std::none_of(photos.begin(), photos.end(), [&](const auto& each) { return each.hash == hash; });
      said += care_line("Photo", fmt::format("{} is {}{}", photo.called, hash, is_new ? "" : ", kept with this firing before"));
      told.push_back(JsonObject{{"file", photo.called}, {"hash", hash}, {"is_new", is_new}});
      if (!is_new) continue;
      photos.push_back({hash, of, {}});
      change.photos.push_back({std::move(photo.bytes), fmt::format("firing {}", firing.name)});
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

}  // namespace

CareAnswer keep_photos(const AskedLab& asked, const std::string& firing, const std::vector<std::string>& files, const std::string& of) {
  std::vector<NewPhoto> all;
  for (const std::string& file : files) all.push_back(photo_in(file));
  return keep_with_firing(asked, firing, std::move(all), of);
}

CareAnswer keep_photo(const AskedLab& asked, const std::string& firing, std::string bytes, const std::string& of) {
  NewPhoto photo{"What was sent", std::move(bytes)};
  check_photo(photo);
  std::vector<NewPhoto> all;
  all.push_back(std::move(photo));
  return keep_with_firing(asked, firing, std::move(all), of);
}

PhotoSeen kept_photo(const AskedLab& asked, const std::string& hash) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    auto bytes = store.photo(hash);
    if (!bytes) throw Failure(ErrorWord::unknown_name, fmt::format("No photo with the hash {} is kept.", trade::for_message(hash, 80)));
    const std::string kind(image_kind(*bytes));
    return PhotoSeen{kind, std::move(*bytes)};
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
